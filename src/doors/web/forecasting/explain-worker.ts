/// <reference lib="webworker" />
import { ranking } from '../../../forecast/explain.ts';
import { weighCauses, type Weighing } from '../../../forecast/explain-run.ts';
import type { ExplainQuestion, ExplainReply } from './use-explain.ts';

/** Weighs causes beside the page; of questions that wait, only the newest is answered, and an answer more is not weighed anew. */
let newest = 0;
let last: { readonly key: string; readonly weighing: Weighing } | null = null;

self.addEventListener('message', (event: MessageEvent<ExplainQuestion>) => {
  const { number } = event.data;
  newest = number;
  setTimeout(() => {
    if (number === newest) self.postMessage(answer(event.data));
  }, 0);
});

function answer({ number, asked }: ExplainQuestion): ExplainReply {
  const { answers, ...record } = asked;
  try {
    const key = JSON.stringify(record);
    if (last?.key !== key) last = { key, weighing: weighCauses(record) };
    return { number, explanation: ranking(last.weighing, answers) };
  } catch (error) {
    return { number, failed: error instanceof Error ? error.message : String(error) };
  }
}
