import type { Forecast } from '../../../forecast/forecast.ts';
import type { Telling } from '../vat/said.ts';
import type { VatView } from '../vat/vat-view.ts';

const MINUTE_MS = 60_000;

/** Minutes until the running step is over, or when the make begins; the sentence under a pot's verb. */
export function potNext(input: {
  readonly view: Pick<VatView, 'standing' | 'expect'>;
  readonly forecast: Forecast | null;
  readonly nowAt: number;
  readonly telling: Telling;
}): string {
  const { view, forecast, nowAt, telling } = input;
  const { say, write, zeroAt } = telling;
  const { stage, step } = view.standing;
  if (stage === 'get-ready') return say('today:running.notYet', { day: write.day(zeroAt), at: write.clock(zeroAt) });
  const end = forecast?.steps.find((one) => one.stepId === step?.id)?.endMin.p50;
  if (stage !== 'running' || end === undefined || !Number.isFinite(end)) return view.expect ?? '';
  const endAt = zeroAt + end * MINUTE_MS;
  const minutes = Math.round((endAt - nowAt) / MINUTE_MS);
  return minutes < 1
    ? say('today:running.due', { at: write.clock(endAt) })
    : say('today:running.until', { at: write.clock(endAt), minutes: write.duration(minutes) });
}
