import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Telling } from './said.ts';

const DAY_MS = 86_400_000;

/** Pieces put on the scale one by one after the last step: how many, and what they weigh together. */
export function piecesWeighed(record: BatchRecord): { readonly count: number; readonly totalKg: number } {
  const packedAt = record.steps.reduce((latest, step) => Math.max(latest, step.endedAt ?? 0), record.zeroAt);
  const pieces = record.weighed.filter((one) => one.what === 'piece' && one.at >= packedAt);
  return { count: pieces.length, totalKg: pieces.reduce((sum, piece) => sum + piece.massKg, 0) };
}

/** What is left when the cheese is made: washing up, the brine, tasting, the date; each with its day. */
export function leftToDo(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
}): readonly string[] {
  const { record, plan, forecast, telling } = input;
  const { say, write } = telling;
  const packedAt = record.steps.reduce((latest, step) => Math.max(latest, step.endedAt ?? 0), record.zeroAt);
  const isBrined = plan.steps.some((step) => step.verb === 'brine');
  const tomorrow = write.day(packedAt + DAY_MS);
  const saltG = saltTakenG({ record, forecast });
  return [
    say('vat:finish.left.wash'),
    ...(isBrined && saltG !== null ? [say('vat:finish.left.brine', { salt: write.grams(saltG).text })] : []),
    say(isBrined ? 'vat:finish.left.taste' : 'vat:finish.left.tasteOnly', { day: tomorrow }),
    say('vat:finish.left.eat', { day: write.day(packedAt + plan.make.shelfLife.days.value * DAY_MS) }),
  ];
}

/** Salt that the cheese took from the brine [g]: its weight times its salt; null where neither is known. */
function saltTakenG(input: { readonly record: BatchRecord; readonly forecast: Forecast | null }): number | null {
  const { record, forecast } = input;
  if (forecast === null) return null;
  const weighed = record.weighed.findLast((one) => one.what === 'cheese');
  const cheeseKg = weighed?.massKg ?? forecast.outcome.cheeseKg.p50;
  return cheeseKg * 10 * forecast.outcome.saltPercent.p50;
}
