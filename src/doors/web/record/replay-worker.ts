/// <reference lib="webworker" />
import { simulate } from '../../../forecast/simulate.ts';
import type { ReplayQuestion, ReplayReply } from './replays.ts';

/** Runs the same plan with several histories, one after the other: what was foreseen, and when. */
let newest = 0;
const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

async function answer(question: ReplayQuestion): Promise<void> {
  const { number, plan, seed, members, asked } = question;
  for (const { key, history, plan: then } of asked) {
    await breath();
    if (number !== newest) return;
    try {
      const forecast = simulate({ plan: then ?? plan, history, members, seed });
      self.postMessage({ number, key, forecast } satisfies ReplayReply);
    } catch (error) {
      self.postMessage({
        number,
        key,
        failed: error instanceof Error ? error.message : String(error),
      } satisfies ReplayReply);
    }
  }
}

self.addEventListener('message', (event: MessageEvent<ReplayQuestion>) => {
  newest = event.data.number;
  void answer(event.data);
});
