/// <reference lib="webworker" />
import { advise, type AdviseInput } from '../../../forecast/advise.ts';
import type { AdviceReply } from './use-advice.ts';

/** Works out choices beside the page and beside the forecast; of questions that wait, only the newest is answered. */
let newest = 0;

self.addEventListener('message', (event: MessageEvent<{ readonly number: number; readonly input: AdviseInput }>) => {
  const { number, input } = event.data;
  newest = number;
  setTimeout(() => {
    if (number !== newest) return;
    self.postMessage(answer(number, input));
  }, 0);
});

function answer(number: number, input: AdviseInput): AdviceReply {
  try {
    return { number, answer: advise(input) };
  } catch (error) {
    return { number, failed: error instanceof Error ? error.message : String(error) };
  }
}
