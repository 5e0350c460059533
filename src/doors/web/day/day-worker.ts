/// <reference lib="webworker" />
import type { DayInput, DayPlan } from '../../../forecast/day/day.ts';
import { planDay } from '../../../forecast/day/plan-day.ts';

export interface DayQuestion {
  readonly number: number;
  readonly input: DayInput;
}
export type DayReply =
  { readonly number: number; readonly plan: DayPlan } | { readonly number: number; readonly failed: string };

/** Plans days beside the page; of questions that wait, only the newest is answered. */
let newest = 0;

self.addEventListener('message', ({ data }: MessageEvent<DayQuestion>) => {
  newest = data.number;
  setTimeout(() => {
    if (data.number !== newest) return;
    try {
      self.postMessage({ number: data.number, plan: planDay(data.input) } satisfies DayReply);
    } catch (error) {
      const failed = error instanceof Error ? error.message : String(error);
      self.postMessage({ number: data.number, failed } satisfies DayReply);
    }
  }, 0);
});
