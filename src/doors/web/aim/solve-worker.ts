/// <reference lib="webworker" />
import { moversOf } from '../../../forecast/movers.ts';
import { solve } from '../../../forecast/solve.ts';
import { worthFreeing } from './worth-freeing.ts';
import type { SolveQuestion, SolveReply } from './solve-messages.ts';

/** Searches beside the page, so that a tap never waits for an answer. */
let newest = 0;
const reply = (message: SolveReply): void => self.postMessage(message);
/** Lets newer questions in before the search. */
const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

async function answer(asked: SolveQuestion): Promise<void> {
  const { number, plan, answers, aims, probability } = asked;
  try {
    await breath();
    if (number !== newest) return;
    const movers = moversOf({ plan, answers, aims });
    const free = asked.free ?? worthFreeing(movers);
    reply({ number, movers, free });
    await breath();
    if (number !== newest || free.length === 0) return;
    const question = { aims, free: free.map((id) => ({ id })), probability };
    reply({ number, question, answer: solve({ plan, answers, question }) });
  } catch (error) {
    reply({ number, failed: error instanceof Error ? error.message : String(error) });
  }
}

self.addEventListener('message', (event: MessageEvent<SolveQuestion>) => {
  newest = event.data.number;
  void answer(event.data);
});
