/** What one gets, how likely the curd is ready in time, and what to know before hot water is lifted. */
import { plannedRestMin } from '../../make/planning.ts';
import { sentenceInUnits } from '../../make/sentence.ts';
import type { Spread } from '../../numbers/stats.ts';
import { restsTold } from '../rests-told.ts';
import { outward } from '../written.ts';
import { withoutUnit } from './amounts-text.ts';
import { columns, paragraph } from './layout.ts';
import { hoursText, isKnown, type Sheet } from './telling.ts';

/** Weight, pieces, moisture, acidity and salt, each with the span that nine makes in ten keep. */
export function outcomeLines(sheet: Sheet): string[] {
  const { forecast, plan, say, both, write, width } = sheet;
  const { outcome } = forecast;
  const row = (id: string, spread: Spread, step: number, as: (value: number) => string): string[][] => {
    if (!isKnown(spread)) return [];
    const { low, high } = outward({ low: spread.p5, high: spread.p95, step });
    const span = { low: withoutUnit(as(low), as(high)), high: as(high) };
    return [[say(`plan-text:get.${id}`), as(spread.p50), say('plan-text:get.nineInTen', span)]];
  };
  const percent =
    (digits: number) =>
    (value: number): string =>
      `${write.number(value, digits)} %`;
  const plain =
    (digits: number) =>
    (value: number): string =>
      write.number(value, digits);
  const pieceG = plan.steps.find((step) => typeof step.set.pieceG === 'number')?.set.pieceG;
  const rows = [
    ...row('cheese', outcome.cheeseKg, 0.1, (value) => both.mass(value).text),
    ...row('pieces', outcome.pieces, 1, plain(0)),
    ...row('moisture', outcome.moisturePercent, 1, percent(0)),
    ...row('fat', outcome.fatInDryMatterPercent, 1, percent(0)),
    ...row('pH', outcome.pHAtStretch, 0.01, plain(2)),
    ...(outcome.saltPercent.p95 > 0 ? row('salt', outcome.saltPercent, 0.1, percent(1)) : []),
  ];
  const piece = typeof pieceG === 'number' ? paragraph({ text: say('plan-text:get.pieceOf', { mass: both.mass(pieceG / 1000).text }), width }) : []; // prettier-ignore
  return [...columns({ rows, width, right: [1] }), ...piece];
}

/** Ready within the planned rest, in tenths, and from the culture on. */
export function readinessLines(sheet: Sheet): string[] {
  const { forecast, plan, say, width } = sheet;
  const { readyWithinPlannedRest: ready, cultureToReadyMin } = forecast.outcome;
  const restMin = plannedRestMin(plan);
  const lines: string[] = [];
  if (Number.isFinite(ready) && restMin > 0) {
    const count = Math.round(ready * 10);
    const context = count >= 10 ? 'all' : count <= 0 ? 'none' : '';
    const text = say('plan-text:ready.within', { count, rest: hoursText(restMin), context });
    lines.push(...paragraph({ text, width }));
  }
  if (Number.isFinite(cultureToReadyMin.p50)) {
    const late = Number.isFinite(cultureToReadyMin.p95) ? hoursText(cultureToReadyMin.p95) : say('plan-text:ready.never'); // prettier-ignore
    const values = { about: hoursText(cultureToReadyMin.p50), low: hoursText(cultureToReadyMin.p5), high: late };
    lines.push(...paragraph({ text: say('plan-text:ready.fromCulture', values), width }));
  }
  const rests = restsTold({ restsOn: forecast.restsOn, checks: null, say });
  lines.push(...paragraph({ text: `${say('plan:rests.title')}: ${rests.join(' ')}`, width }));
  if (plan.steps.some((step) => step.verb === 'stretch')) {
    lines.push(
      ...paragraph({
        text: sentenceInUnits({ text: say('plan-text:ready.earlyLate'), units: sheet.both.units }),
        width,
      }),
    );
  }
  return lines;
}

const HOT_C = 55; // water that is poured this hot or hotter needs a plan of its own: our own choice

/** How much hot water, how heavy the pot, who pours, and the eight words. Nothing where no hot water is poured. */
export function hotWaterLines(sheet: Sheet): string[] {
  const { forecast, plan, say, both, width } = sheet;
  const { needs } = forecast;
  const hottestC = Math.max(
    Number.NEGATIVE_INFINITY,
    ...plan.steps.map((step) => (typeof step.set.waterC === 'number' ? step.set.waterC : Number.NEGATIVE_INFINITY)),
  );
  if (hottestC < HOT_C) return [];
  const sentences = [say('plan-text:hot.water', { water: both.temperature(hottestC).text })];
  if (isKnown(needs.filledPotKg)) sentences.push(say('plan-text:hot.pot', { mass: both.mass(needs.filledPotKg.p95).text })); // prettier-ignore
  sentences.push(say('plan-text:hot.who'));
  return [
    ...paragraph({ text: sentences.join(' '), width }),
    ...paragraph({ text: `${say('plan-text:hot.before')} ${say('plan:hot.lift')}`, width }),
  ];
}
