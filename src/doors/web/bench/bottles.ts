/** Bottles of rennet on the list, with what a cup test said and what age has taken since. */
import type { Event } from '../../../record/event.ts';
import { foldLot, type LotTest } from '../../../record/lot-record.ts';
import { rennetKeptFraction } from '../../../science/rennet.ts';
import { shortText, type SumDraft } from './sum-draft.ts';

export interface Bottle {
  readonly lotId: string;
  readonly name: string;
  /** The last test; null where there was none. */
  readonly test: LotTest | null;
  readonly monthsSince: number;
  /** What is left of the tested strength, kept at fridge warmth. */
  readonly keptFraction: number;
}

export const DAYS_PER_MONTH = 30.44; // mean month of the calendar
const MONTH_MS = DAYS_PER_MONTH * 86_400_000;
const FRIDGE_C = 4; // where rennet is told to be kept
export const TEST_AGAIN_MONTHS = 6; // our own choice

/** Bottles of rennet in the log, the last tested first. */
export function bottlesOf(input: {
  readonly streams: ReadonlyMap<string, readonly Event[]>;
  readonly now: number;
}): readonly Bottle[] {
  return [...input.streams]
    .filter(([id]) => id.startsWith('lot:'))
    .map(([, events]) => foldLot(events))
    .filter((lot) => lot.isReceived && lot.kind === 'rennet')
    .map((lot): Bottle => {
      const test = lot.tests.at(-1) ?? null;
      const monthsSince = test === null ? 0 : Math.max(0, input.now - test.at) / MONTH_MS;
      const keptFraction = rennetKeptFraction({ months: monthsSince, temperatureC: FRIDGE_C });
      return { lotId: lot.lotId, name: lot.name, test, monthsSince, keptFraction };
    })
    .sort((a, b) => (b.test?.at ?? 0) - (a.test?.at ?? 0));
}

/** The rennet sum filled in from a tested bottle: strength as tested, and the months since. */
export function withBottle(input: { readonly draft: SumDraft; readonly bottle: Bottle }): SumDraft {
  const { draft, bottle } = input;
  if (bottle.test === null) return draft;
  const brought = bottleTexts(bottle);
  return {
    ...draft,
    texts: { ...draft.texts, ...brought },
    examples: draft.examples.filter((path) => !(path in brought)),
  };
}

function bottleTexts(bottle: Bottle): Readonly<Record<string, string>> {
  const strength = bottle.test?.strengthImcuPerMl.p50 ?? 0;
  return {
    strengthIMCUPerML: shortText(strength),
    monthsStored: String(Math.round(bottle.monthsSince * 10) / 10),
    form: 'liquid',
  };
}

/** True while the sum's strength is still the one this bottle brought. */
export const isOfBottle = (input: { readonly draft: SumDraft; readonly bottle: Bottle }): boolean =>
  input.bottle.test !== null &&
  input.draft.texts['strengthIMCUPerML'] === bottleTexts(input.bottle)['strengthIMCUPerML'];
