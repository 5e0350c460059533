/** The cup test as data: a start, never a counter, so that it survives a reload, a locked screen and a flat battery. */
import { z } from 'zod';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { OtherBody } from '../../../record/event.ts';
import { DROPS_PER_ML, RENNET_STRENGTH_PRIORS } from '../../../science/rennet.ts';
import { askSum } from './ask-sum.ts';
import type { SumField } from '../../../exchange/told/field-shapes.ts';
import { inUnits, type SumDraft } from './sum-draft.ts';
import { sumInput, type SumInput } from './sum-input.ts';
import { numberAt } from '../../../exchange/told/value-at.ts';

export const CUP_MILKS = ['whole', 'semi', 'raw', 'high-heat', 'uht'] as const;

/** What the words on the carton say of heat. */
export const CUP_TREATMENTS = { whole: 'pasteurised', semi: 'pasteurised', raw: 'raw', 'high-heat': 'high-heat', uht: 'uht' } as const; // prettier-ignore

export const cupSchema = z.object({
  units: z.enum(['metric', 'us']),
  /** Blanks of the sum `rennet-test`, without the time. */
  texts: z.record(z.string(), z.string()),
  milk: z.enum(CUP_MILKS),
  /** Empty for a bottle that is not on the list yet. */
  lotId: z.string(),
  bottleName: z.string().max(80),
  startedAt: z.int().nullable(),
  fleckedAt: z.int().nullable(),
  /** Stopped without flecks. */
  stoppedAt: z.int().nullable(),
  /** What was kept for this test, so that it can be taken back. */
  eventIds: z.array(z.string()),
  isUndone: z.boolean(),
  potText: z.string(),
});
export type CupTest = z.infer<typeof cupSchema>;

export type CupPhase = 'setup' | 'running' | 'noCurd' | 'seen';

const GUIDED = { milkML: '100', temperatureC: '33', drops: '1' } as const; // 100 mL at 32 to 35 °C, one drop: our own choice
const POT_L = '12';

/** A new test; blanks hold what the guide says to take. */
export function freshCup(input: { readonly units: UnitSystem; readonly bottleName: string }): CupTest {
  const metric: CupTest = { units: 'metric', texts: GUIDED, milk: 'whole', lotId: '', bottleName: input.bottleName, startedAt: null, fleckedAt: null, stoppedAt: null, eventIds: [], isUndone: false, potText: POT_L }; // prettier-ignore
  return cupInUnits({ cup: metric, units: input.units });
}

export function phaseOf(cup: CupTest): CupPhase {
  if (cup.startedAt === null) return 'setup';
  if (cup.fleckedAt !== null) return 'seen';
  return cup.stoppedAt === null ? 'running' : 'noCurd';
}

export const draftOfCup = (cup: CupTest): SumDraft => ({ units: cup.units, texts: cup.texts, examples: [] });

export function cupInUnits(input: { readonly cup: CupTest; readonly units: UnitSystem }): CupTest {
  const { cup, units } = input;
  if (cup.units === units) return cup;
  const pot = inUnits({ draft: { units: cup.units, texts: { milkL: cup.potText }, examples: [] }, units });
  return {
    ...cup,
    units,
    texts: inUnits({ draft: draftOfCup(cup), units }).texts,
    potText: pot.texts['milkL'] ?? cup.potText,
  };
}

/** Minutes from rennet in to the flecks, or to now while none were seen. */
export function cupMinutes(input: { readonly cup: CupTest; readonly now: number }): number {
  const { startedAt, fleckedAt, stoppedAt } = input.cup;
  return startedAt === null ? 0 : Math.max(0, (fleckedAt ?? stoppedAt ?? input.now) - startedAt) / 60_000;
}

/** "7:05", as a kitchen clock shows it. */
export function clockText(minutes: number): string {
  const seconds = Math.floor(minutes * 60 + 1e-6);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}

/** The blanks as the sum takes them; `flocculationMinutes` is left to the clock. */
export function cupInput(input: { readonly cup: CupTest; readonly fields: readonly SumField[] }): SumInput {
  const fields = input.fields.filter((field) => field.path !== 'flocculationMinutes');
  return sumInput({ fields, draft: draftOfCup(input.cup) });
}

/** When flecks come from an ordinary bottle, strong to weak; null where the blanks say nothing sensible. */
export function expectedMinutes(
  json: Readonly<Record<string, unknown>>,
): { readonly low: number; readonly high: number } | null {
  const milkML = numberAt(json, 'milkML');
  const temperatureC = numberAt(json, 'temperatureC');
  const rennetML = numberAt(json, 'rennetML') ?? (numberAt(json, 'drops') ?? Number.NaN) / DROPS_PER_ML.typical;
  if (milkML === null || temperatureC === null) return null;
  const { low, high } = RENNET_STRENGTH_PRIORS.liquid;
  const at = (strength: number): number | null => {
    const doseIMCUPerL = (1000 * rennetML * strength) / milkML;
    const reply = askSum({ name: 'clot', input: { doseIMCUPerL, temperatureC, pH: numberAt(json, 'pH') ?? 6.65 } });
    return 'answer' in reply ? numberAt(reply.answer.result, 'flocculationMinutes.p50') : null;
  };
  const quick = at(high);
  const slow = at(low);
  return quick === null || slow === null ? null : { low: quick, high: slow };
}

export const OVERDUE_TIMES = 1.5; // our own choice: half as long again as a weak ordinary bottle

/** What the sum `rennet-test` finds in a cup. */
export const foundSchema = z.object({
  strengthIMCUPerML: z.object({ p5: z.number(), p50: z.number(), p95: z.number() }),
  makesCurd: z.enum(['yes', 'weak', 'no']),
});

/** What goes into the log: what was seen, and what the sum made of it; null where the sum gave no answer. */
export function testedBody(input: {
  readonly json: Readonly<Record<string, unknown>>;
  readonly minutes: number;
  readonly milk: string;
  readonly milkTreatment: (typeof CUP_TREATMENTS)[(typeof CUP_MILKS)[number]];
  readonly result: unknown;
}): OtherBody<'lotTested'> | null {
  const { json, minutes, milk, milkTreatment, result } = input;
  const found = foundSchema.safeParse(result);
  const milkMl = numberAt(json, 'milkML');
  const temperatureC = numberAt(json, 'temperatureC');
  if (!found.success || milkMl === null || temperatureC === null) return null;
  const drops = numberAt(json, 'drops');
  const rennetMl = numberAt(json, 'rennetML');
  const pH = numberAt(json, 'pH');
  return {
    strengthImcuPerMl: found.data.strengthIMCUPerML,
    makesCurd: found.data.makesCurd,
    flocculationMin: minutes,
    temperatureC,
    milk,
    milkTreatment,
    milkMl,
    ...(drops === null ? {} : { drops }),
    ...(rennetMl === null ? {} : { rennetMl }),
    ...(pH === null ? {} : { pH }),
  };
}
