import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { stepsOnClock } from '../timeline/steps-on-clock.ts';
import { stretchesOf } from '../timeline/stretches.ts';
import type { TimelineStep } from '../timeline/timeline-layout.ts';

const MINUTE_MS = 60_000;

/** A time in which a pot wants something that there are only so many of: hands, or a burner. Milliseconds UTC. */
export interface Busy {
  readonly potId: string;
  readonly stepId: string;
  /** What wants it; two wants of one name count once. */
  readonly want: string;
  readonly fromAt: number;
  readonly toAt: number;
}

/** One pot hung on the wall clock. */
export interface PotOnClock {
  readonly potId: string;
  readonly steps: readonly TimelineStep[];
  /** When it wants a burner: steps on one, and hot water made ready beside it. */
  readonly burners: readonly Omit<Busy, 'potId' | 'want'>[];
}

/** A pot's steps and burners on the clock, as foreseen. */
export function potOnClock(input: {
  readonly potId: string;
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly record: BatchRecord;
  readonly zeroAt: number;
  /** The water is heated in a kettle, and wants no burner. */
  readonly hasKettle?: boolean;
}): PotOnClock {
  const { potId, plan, hasKettle = false } = input;
  const steps = stepsOnClock(input);
  const kits = new Map(plan.steps.map((step) => [step.id, step.kit]));
  const onBurner = steps
    .filter(({ id, state }) => state !== 'done' && kits.get(id)?.includes('burner') === true)
    .map(({ id, startAt, endAt }) => ({ stepId: id, fromAt: startAt, toAt: endAt }));
  return { potId, steps, burners: hasKettle ? onBurner : [...onBurner, ...waterOf({ ...input, steps })] };
}

/** Hot water for washing and stretching is heated beside the pot; what was ticked off as ready is not heated again. */
function waterOf(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly record: BatchRecord;
  readonly steps: readonly TimelineStep[];
}): PotOnClock['burners'] {
  const { plan, forecast, record, steps } = input;
  const ready = new Set(record.prepared.map(({ item }) => item));
  const startOf = new Map(steps.map((step) => [step.id, step]));
  return plan.steps.flatMap((step) => {
    const here = startOf.get(step.id);
    if (here === undefined || here.state !== 'coming') return [];
    return step.prepare.flatMap(({ id, amount, leadMinutes }) => {
      if ((amount !== 'wash-water' && amount !== 'stretch-water') || ready.has(`${step.id}.${id}`)) return [];
      const heating = amount === 'stretch-water' ? forecast.needs.stretchWaterHeatMin?.p50 : undefined;
      const minutes = heating !== undefined && Number.isFinite(heating) ? heating : leadMinutes.value;
      return [{ stepId: step.id, fromAt: here.startAt - minutes * MINUTE_MS, toAt: here.startAt }];
    });
  });
}

/** When pots want hands, by the likeliest times; what is over is left out. */
export function handsOf(pot: PotOnClock): Busy[] {
  return pot.steps
    .filter(({ state }) => state !== 'done')
    .flatMap((step) =>
      stretchesOf(step)
        .filter(({ kind }) => kind === 'hands')
        .map(({ fromAt, toAt }) => ({ potId: pot.potId, stepId: step.id, want: pot.potId, fromAt, toAt })),
    );
}

/** When pots want a burner. A pot can want two at once. */
export function burnersOf(pot: PotOnClock): Busy[] {
  return pot.burners.map((one, index) => ({ ...one, potId: pot.potId, want: `${pot.potId} ${index}` }));
}

/** The same pot begun so many minutes later. */
export function later(pot: PotOnClock, minutes: number): PotOnClock {
  const by = minutes * MINUTE_MS;
  return {
    potId: pot.potId,
    steps: pot.steps.map((step) => ({
      ...step,
      startAt: step.startAt + by,
      endAt: step.endAt + by,
      endEarlyAt: step.endEarlyAt + by,
      endLateAt: step.endLateAt + by,
    })),
    burners: pot.burners.map((one) => ({ ...one, fromAt: one.fromAt + by, toAt: one.toAt + by })),
  };
}
