import type { Preparation } from '../../make/step.ts';
import type { DayKit, DayPot } from './day.ts';
import type { Mode } from './jobs.ts';
import type { StepTimes } from './offsets.ts';
import { EVENING_LEAD_MIN, GRID_MIN, KETTLE_SHARE, REFILL_MIN, TAP_WATER_C, USUAL_KETTLE, WATER_KJ_PER_KG_K, WATER_STANDS_MIN } from './rules.ts'; // prettier-ignore

/** What kind of work a preparation is. */
export type Preparing = 'evening' | 'heating' | 'hands';

const BOILING_C = 100; // where nobody says how hot: to the boil, our own choice

const HEATED: ReadonlySet<Preparation['amount']> = new Set(['wash-water', 'stretch-water']);

export function preparingOf({ amount, leadMinutes }: Preparation): Preparing {
  if (HEATED.has(amount)) return 'heating';
  return leadMinutes.value >= EVENING_LEAD_MIN ? 'evening' : 'hands';
}

/** Preparations of a pot that are still to be made, with the step that wants each. */
export function openPreparations(pot: DayPot): { readonly step: number; readonly preparation: Preparation }[] {
  const ready = new Set(pot.ready ?? []);
  const coming = new Set(pot.foreseen.steps.filter(({ state }) => state === 'coming').map(({ stepId }) => stepId));
  return pot.steps.flatMap((step, index) =>
    coming.has(step.id)
      ? step.prepare
          .filter(({ id }) => !ready.has(`${step.id}.${id}`))
          .map((preparation) => ({ step: index, preparation }))
      : [],
  );
}

export interface Heating {
  readonly step: number;
  readonly preparationId: string;
  readonly modes: readonly Mode[];
}

/** Water to heat for a pot, each with the ways there are: in a kettle, or on a burner. */
export function heatings(input: {
  readonly pot: DayPot;
  readonly kit: DayKit;
  readonly times: readonly StepTimes[];
}): Heating[] {
  const { pot, kit, times } = input;
  return openPreparations(pot).flatMap(({ step, preparation }) => {
    const planned = pot.steps[step];
    const readyMin = times[step]?.start.soon;
    if (preparingOf(preparation) !== 'heating' || planned === undefined || readyMin === undefined) return [];
    const mode = (by: 'kettle' | 'burner', minutes: number): Mode => ({
      by,
      uses: [{ resource: by, fromMin: 0, toMin: minutes, stepId: planned.id, preparationId: preparation.id }],
      lag: { least: readyMin - minutes - WATER_STANDS_MIN, most: readyMin - minutes },
    });
    const kettle = kettleMin({ pot, step, preparation, kit });
    const modes = [...((kit.kettle ?? 0) > 0 ? [mode('kettle', kettle)] : []), mode('burner', burnerMin({ pot, preparation }))]; // prettier-ignore
    return [{ step, preparationId: preparation.id, modes }];
  });
}

/** How long a burner takes for the water, in 4 such makes of 5; the make's own lead where the forecast says nothing. */
export function burnerMin(input: { readonly pot: DayPot; readonly preparation: Preparation }): number {
  const { pot, preparation } = input;
  const foreseen = pot.foreseen.needs.stretchWaterHeatMin;
  const late = foreseen === null ? Number.NaN : foreseen.p75 + 0.25 * (foreseen.p95 - foreseen.p75);
  const minutes =
    preparation.amount === 'stretch-water' && Number.isFinite(late) ? late : preparation.leadMinutes.value;
  return Math.max(GRID_MIN, Math.ceil(minutes));
}

/**
 * How long kettles take for the water: its heat at their power, and a refill for each after the first.
 * @source energy balance, m c (T - 15 °C) / (0.9 W)
 */
export function kettleMin(input: {
  readonly pot: DayPot;
  /** Index of the step that asks for it. */
  readonly step: number;
  readonly preparation: Preparation;
  readonly kit: DayKit;
}): number {
  const { pot, preparation, kit } = input;
  const { needs } = pot.foreseen;
  const spread = preparation.amount === 'stretch-water' ? needs.stretchWaterKg : needs.washWaterL;
  const litres = spread === null || !Number.isFinite(spread.p95) ? 0 : spread.p95;
  // It may be asked for some steps before the one that pours it.
  const pouring = pot.steps.slice(input.step).find(({ set }) => typeof set.waterC === 'number')?.set.waterC;
  const toC = typeof pouring === 'number' ? pouring : BOILING_C;
  const watts = kit.kettleWatts ?? USUAL_KETTLE.watts;
  const heatMin = (litres * WATER_KJ_PER_KG_K * 1000 * (toC - TAP_WATER_C)) / (watts * KETTLE_SHARE) / 60;
  const fills = Math.max(1, Math.ceil(litres / (kit.kettleLitres ?? USUAL_KETTLE.litres)));
  return Math.max(GRID_MIN, Math.ceil(heatMin + (fills - 1) * REFILL_MIN));
}
