import type { Say } from '../../../exchange/words.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Make } from '../../../make/make.ts';
import type { Spread } from '../../../numbers/stats.ts';
import type { Written } from '../../../exchange/written.ts';
import { isKnown, nineInTen, stepFor, type Telling } from './spans.ts';

/** One thing the maker will get: the likeliest value and the span that 9 makes in 10 keep. */
export interface OutcomeRow {
  readonly id: string;
  readonly name: string;
  readonly written: Written;
  readonly span: string;
}

export interface OutcomeView {
  readonly rows: readonly OutcomeRow[];
  /** Chance that the curd is ready to stretch inside the planned rest, counted out of twenty. */
  readonly ready: string | null;
  readonly cultureToReady: string | null;
}

/** What the make will give: weight, pieces, moisture, acidity, salt. Numbers the forecast does not have are left out. */
export function outcomeView(input: { readonly forecast: Forecast; readonly make: Make } & Telling): OutcomeView {
  const { forecast, say, write } = input;
  const { outcome } = forecast;
  const row = (id: string, spread: Spread, step: number, as: (value: number) => Written): OutcomeRow[] =>
    isKnown(spread) ? [{ id, name: say(`plan:outcome.${id}`), written: as(spread.p50), span: nineInTen({ spread, step, write: as, say }) }] : []; // prettier-ignore
  const pieces = (count: number): Written => {
    const unit = say('plan:units.pieces', { count: Math.round(count) });
    return { number: String(Math.round(count)), unit, text: `${Math.round(count)}\u202F${unit}` };
  };
  const ready = outcome.readyWithinPlannedRest;
  return {
    rows: [
      ...row('weight', outcome.cheeseKg, stepFor(outcome.cheeseKg.p95), write.kilograms),
      ...row('pieces', outcome.pieces, 1, pieces),
      ...row('moisture', outcome.moisturePercent, 1, (value) => write.percent(value)),
      ...row('pH', outcome.pHAtStretch, 0.01, write.pH),
      ...(outcome.saltPercent.p95 > 0 ? row('salt', outcome.saltPercent, 0.1, (value) => write.percent(value, 1)) : []),
    ],
    ready: Number.isFinite(ready) ? readyText(ready, say) : null,
    cultureToReady: isKnown(outcome.cultureToReadyMin)
      ? say('plan:outcome.cultureToReady', {
          about: write.duration(outcome.cultureToReadyMin.p50),
          low: write.duration(outcome.cultureToReadyMin.p5),
          high: write.duration(outcome.cultureToReadyMin.p95),
        })
      : null,
  };
}

/** "17 in 20 such makes"; what is as good as certain is said plainly. */
function readyText(ready: number, say: Say): string {
  const count = Math.round(ready * 20);
  return say('plan:outcome.ready', { count, context: count >= 20 ? 'all' : count <= 0 ? 'none' : '' });
}
