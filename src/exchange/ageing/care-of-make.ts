/** The care that a make's own `age` steps ask for, one stay a step. */
import { z } from 'zod';
import type { Care, Stay } from '../../record/care-plan.ts';
import { type Rind, RINDS } from '../../science/ageing.ts';
import { styleOfFamily, STYLE_CARE, type StyleCare } from './styles.ts';

const figure = z.looseObject({ value: z.number() }).optional();
const stepSchema = z.looseObject({
  verb: z.string(),
  name: z.string(),
  set: z.looseObject({
    atC: figure,
    humidityPercent: figure,
    turnDays: figure,
    brushDays: figure,
    washDays: figure,
    rind: z.enum(RINDS).optional(),
  }),
  until: z.looseObject({ of: z.array(z.looseObject({ kind: z.string(), days: figure, minutes: figure })) }),
});
const makeSchema = z.looseObject({ name: z.string(), family: z.string(), steps: z.array(z.unknown()) });

const MINUTES_PER_DAY = 1440;
const READY_SHARE = 0.8; // our own choice: a first taste before the last stay's end
const LATE_SHARE = 1.5; // our own choice: how much longer than the make says it usually keeps

/**
 * What a make says of ageing: its steps first, the custom of its family where it has none.
 * @param make the frozen make of a batch
 * @returns the care, the rind and whether the make itself says so
 */
export function careOfMake(make: unknown): StyleCare & { readonly isFromMake: boolean; readonly cheese: string } {
  const read = makeSchema.safeParse(make);
  if (!read.success) return { ...STYLE_CARE.own, isFromMake: false, cheese: '' };
  const usual = STYLE_CARE[styleOfFamily(read.data.family)];
  const steps = read.data.steps.flatMap((step) => {
    const known = stepSchema.safeParse(step);
    return known.success && known.data.verb === 'age' ? [known.data] : [];
  });
  if (steps.length === 0) return { ...usual, isFromMake: false, cheese: read.data.name };
  const daysOf = (step: (typeof steps)[number]): number | null => {
    const of = step.until.of.flatMap(({ days, minutes }) => days?.value ?? (minutes === undefined ? [] : minutes.value / MINUTES_PER_DAY)); // prettier-ignore
    return of[0] ?? null;
  };
  const stays = steps.map(({ set, ...step }, i): Stay => {
    const days = daysOf({ set, ...step });
    const isLast = i === steps.length - 1;
    const before = steps[i - 1]?.set;
    const isElsewhere = before !== undefined && (before.atC?.value !== set.atC?.value || before.humidityPercent?.value !== set.humidityPercent?.value); // prettier-ignore
    const isCoated = set.rind !== undefined && before?.rind !== set.rind;
    const once = [
      ...(isCoated && set.rind === 'waxed' ? (['wax'] as const) : []),
      ...(isCoated && set.rind === 'vacuum' ? (['pack'] as const) : []),
      ...(isElsewhere ? (['move'] as const) : []),
    ];
    const every = {
      ...(set.turnDays === undefined ? {} : { turn: set.turnDays.value }),
      ...(set.brushDays === undefined ? {} : { brush: set.brushDays.value }),
      ...(set.washDays === undefined ? {} : { wash: set.washDays.value }),
    };
    return {
      // The last one goes on until the cheese is eaten.
      ...(days === null || isLast ? {} : { days }),
      ...(set.atC === undefined ? {} : { temperatureC: set.atC.value }),
      ...(set.humidityPercent === undefined ? {} : { humidityPercent: set.humidityPercent.value }),
      every: Object.keys(every).length === 0 ? { look: 7 } : every,
      ...(once.length === 0 ? {} : { once }),
    };
  });
  const whole = steps.reduce((sum, step) => sum + (daysOf(step) ?? 0), 0);
  const ready = whole > 0 ? { readyDays: { from: Math.round(whole), to: Math.round(LATE_SHARE * whole) } } : {};
  const tasteDays = whole > 0 ? [Math.max(1, Math.round(READY_SHARE * whole))] : [];
  const care: Care = { stays, tasteDays, ...ready, source: read.data.name };
  return { ...usual, rind: rindOf(steps) ?? usual.rind, care, isFromMake: true, cheese: read.data.name };
}

/** The rind that it begins with: wax and a bag come later, as jobs. */
function rindOf(steps: readonly { readonly set: { readonly rind?: Rind | undefined } }[]): Rind | undefined {
  const first = steps[0]?.set.rind;
  return first === 'waxed' || first === 'vacuum' ? 'bare' : first;
}
