/** How often the forecasts of this kitchen came true: what was shown as each make was opened, held against what was noted. */
import { z } from 'zod';
import type { BatchRecord } from '../record/batch-record.ts';

export interface KitchenChecks {
  /** Finished makes with at least one band to hold against what came. */
  readonly makes: number;
  readonly bands: number;
  /** Of them, bands that held what came: nine in ten, if they are honest. */
  readonly inside: number;
}

/** JSON has no infinity: an end that was not foreseen is null. */
const spreadSchema = z.looseObject({ p5: z.number().nullable(), p95: z.number().nullable() });
const summarySchema = z.looseObject({
  cultureToReadyMin: spreadSchema.nullable().optional().catch(undefined),
  endMin: spreadSchema.nullable().optional().catch(undefined),
  cheeseKg: spreadSchema.nullable().optional().catch(undefined),
});
const makeSchema = z.looseObject({
  steps: z.array(z.looseObject({ id: z.string(), verb: z.string(), set: z.looseObject({}).optional() })),
});

/**
 * Holds the opening forecasts of finished makes against their records: the time from the culture to the end of the last
 * souring rest (for records that do not hold its band, the end of the make) and the weight of the cheese.
 * @param records of one kitchen; running makes and those of the demo are passed over
 */
export function kitchenChecks(records: readonly BatchRecord[]): KitchenChecks {
  const checked = records
    .filter((record) => record.finishedAt !== null && !record.demo)
    .map(bandsHeld)
    .filter((bands) => bands.length > 0);
  const bands = checked.flat();
  return { makes: checked.length, bands: bands.length, inside: bands.filter(Boolean).length };
}

function bandsHeld(record: BatchRecord): boolean[] {
  const summary = summarySchema.safeParse(record.frozenPlans[0]?.summary);
  const make = makeSchema.safeParse(record.make);
  if (!summary.success || !make.success) return [];
  const { cultureToReadyMin, endMin, cheeseKg } = summary.data;
  const { steps } = make.data;
  const ended = (id: string | undefined): number | null =>
    record.steps.find((step) => step.stepId === id)?.endedAt ?? null;
  const minutes = (from: number | null, to: number | null): number | null =>
    from === null || to === null ? null : (to - from) / 60_000;
  const culture = ended(steps.find(({ set }) => set?.['ingredient'] === 'culture')?.id);
  const ready = ended(steps.filter(({ verb }) => verb === 'restToAcid').at(-1)?.id);
  const time =
    cultureToReadyMin === undefined || cultureToReadyMin === null
      ? held(endMin, minutes(record.zeroAt, ended(steps.at(-1)?.id)))
      : held(cultureToReadyMin, minutes(culture, ready));
  const cheese = record.weighed.filter(({ what }) => what === 'cheese').at(-1)?.massKg ?? null;
  return [time, held(cheeseKg, cheese)].filter((one) => one !== null);
}

/** Null where nothing was foreseen, or nothing came. */
function held(band: z.infer<typeof spreadSchema> | null | undefined, came: number | null): boolean | null {
  if (band === undefined || band === null || band.p5 === null || came === null) return null;
  return came >= band.p5 && came <= (band.p95 ?? Infinity);
}
