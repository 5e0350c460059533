/** What a lot on the list answers for a plan: strength, age, what a packet treats, how often it was used. */
import type { Answers } from '../make/setup.ts';
import type { LotRecord, LotTest } from './lot-record.ts';

export const DAYS_PER_MONTH = 30.44; // mean month of the calendar
const MONTH_MS = DAYS_PER_MONTH * 86_400_000;
const IMCU_UNITS: readonly string[] = ['IMCU/mL', 'IMCU/g', 'IMCU/tablet'];
const PERCENT: readonly string[] = ['%'];
const RENNET_FORMS = ['liquid', 'powder', 'tablet'] as const;
const CULTURE_FORMS = ['freeze-dried', 'frozen', 'bulk', 'whey'] as const;

/** The part of the answers that is about one lot. */
export type LotAnswers = Pick<Answers, 'rennet' | 'culture' | 'calcium'>;

/** Months from an instant to another, never less than none. */
export const monthsBetween = (input: { readonly from: number; readonly to: number }): number =>
  Math.max(0, input.to - input.from) / MONTH_MS;

/**
 * The last cup test that tells the bottle's strength. Milk heated high makes good rennet look weak, and a test that found
 * no curd found no strength.
 */
export function strengthTest(lot: Pick<LotRecord, 'tests'>): LotTest | null {
  const tells = ({ milkTreatment, makesCurd }: LotTest): boolean =>
    makesCurd !== 'no' && milkTreatment !== 'uht' && milkTreatment !== 'high-heat';
  return lot.tests.filter(tells).at(-1) ?? null;
}

/**
 * What a lot answers, for a plan made at this moment. A test counts before the label; a bottle's age is counted from its
 * test, else from the day it came.
 * @param input.now milliseconds UTC
 * @param input.instantOf when a day began at the maker's place, milliseconds UTC
 * @param input.uses batches made with it so far; none are no answer, since there may be some that nobody recorded
 */
export function lotAnswers(input: {
  readonly lot: LotRecord;
  readonly now: number;
  readonly uses: number;
  readonly instantOf: (day: string) => number;
}): LotAnswers {
  const { lot, uses } = input;
  switch (lot.kind) {
    case 'rennet':
      return { rennet: { lot: lot.lotId, ...given('form', oneOf(RENNET_FORMS, lot.form)), ...strengthOf(input) } };
    case 'culture':
      return {
        culture: {
          lot: lot.lotId,
          ...given('form', oneOf(CULTURE_FORMS, lot.form)),
          ...given('packetTreatsL', lot.treatsL),
          ...given('packetMassG', lot.massG),
          ...(uses === 0 ? {} : { batchesWithLot: uses }),
        },
      };
    case 'calcium':
      return {
        calcium: { has: true, lot: lot.lotId, ...given('solutionPercent', strengthIn(lot, PERCENT)) }, // prettier-ignore
      };
    default:
      return {};
  }
}

function strengthOf({ lot, now, instantOf }: Parameters<typeof lotAnswers>[0]): NonNullable<Answers['rennet']> {
  const test = strengthTest(lot);
  if (test !== null) {
    const { p5, p50, p95 } = test.strengthImcuPerMl;
    return {
      strengthImcuPerMl: p50,
      testedSpanImcuPerMl: { low: p5, high: p95 },
      monthsStored: monthsBetween({ from: test.at, to: now }),
    };
  }
  const labelled = strengthIn(lot, IMCU_UNITS);
  const came = lot.receivedOn === null ? null : instantOf(lot.receivedOn);
  return {
    ...given('strengthImcuPerMl', labelled),
    ...given('monthsStored', came === null ? null : monthsBetween({ from: came, to: now })),
  };
}

/** The label's strength, where it is counted in one of these units. */
function strengthIn({ strength }: LotRecord, units: readonly string[]): number | null {
  return strength !== null && units.includes(strength.unit) ? strength.value : null;
}

const oneOf = <Word extends string>(words: readonly Word[], said: string | null): Word | null =>
  words.find((word) => word === said) ?? null;

/** A field that is left out where nobody knows it. */
function given<Name extends string, Value>(name: Name, value: Value | null): { readonly [K in Name]?: Value } {
  const known: { [K in Name]?: Value } = {};
  if (value !== null) known[name] = value;
  return known;
}
