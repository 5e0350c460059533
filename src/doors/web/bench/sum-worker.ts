/// <reference lib="webworker" />
import { askSum } from './ask-sum.ts';
import type { SumReply, SumsAsked, SumsReplied } from './sum-messages.ts';

/** Runs the sums beside the page, so that a key never waits for an answer. */
let newest = 0;
/** Lets newer questions in between two sums. */
const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

async function answer({ number, questions }: SumsAsked): Promise<void> {
  const replies: SumReply[] = [];
  for (const question of questions) {
    await breath();
    if (number !== newest) return;
    replies.push(askSum(question));
  }
  const told: SumsReplied = { number, replies };
  self.postMessage(told);
}

self.addEventListener('message', (event: MessageEvent<SumsAsked>) => {
  newest = event.data.number;
  void answer(event.data);
});
