/** Bottles of rennet on the list, with what a cup test said and what age has taken since. */
import type { Event } from '../../../record/event.ts';
import { monthsBetween, strengthTest } from '../../../record/lot-answers.ts';
import type { LotRecord, LotTest } from '../../../record/lot-record.ts';
import { rennetKeptFraction } from '../../../science/rennet.ts';
import { keptLots } from './kept-lots.ts';

export interface Bottle {
  readonly lotId: string;
  readonly name: string;
  /** The last test that tells its strength; null where there was none. */
  readonly test: LotTest | null;
  /** Tested only in milk that tells nothing of the bottle. */
  readonly isTestedInVain: boolean;
  readonly monthsSince: number;
  /** What is left of the tested strength, kept at fridge warmth. */
  readonly keptFraction: number;
}

const FRIDGE_C = 4; // where rennet is told to be kept
export const TEST_AGAIN_MONTHS = 6; // our own choice

/** Bottles of rennet in the log, the last tested first. */
export function bottlesOf(input: {
  readonly streams: ReadonlyMap<string, readonly Event[]>;
  readonly now: number;
}): readonly Bottle[] {
  return keptLots(input.streams)
    .filter(({ lot }) => lot.kind === 'rennet')
    .map(({ lot }) => bottleOf({ lot, now: input.now }))
    .sort((a, b) => (b.test?.at ?? 0) - (a.test?.at ?? 0));
}

/** One bottle, as old as it is at this moment. */
export function bottleOf(input: { readonly lot: LotRecord; readonly now: number }): Bottle {
  const { lot, now } = input;
  const test = strengthTest(lot);
  const monthsSince = test === null ? 0 : monthsBetween({ from: test.at, to: now });
  return {
    lotId: lot.lotId,
    name: lot.name,
    test,
    isTestedInVain: test === null && lot.tests.length > 0,
    monthsSince,
    keptFraction: rennetKeptFraction({ months: monthsSince, temperatureC: FRIDGE_C }),
  };
}
