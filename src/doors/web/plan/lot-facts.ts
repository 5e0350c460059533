/** A packet or bottle from the list as the facts that a plan takes from it. */
import type { UnitSystem } from '../../../exchange/written.ts';
import { valueAt } from '../../../make/problems.ts';
import { lotAnswers } from '../../../record/lot-answers.ts';
import type { KeptLot } from '../lots/kept-lots.ts';
import { typedText, type Draft } from './draft.ts';
import type { LotsChosen } from './chosen-lots.ts';
import { FACT_PATHS, type FactPath } from './draft-fields.ts';
import { wallInstant } from './wall-clock.ts';

/** The facts of the chosen lots, as they would be typed, by path. */
export type LotFacts = Readonly<Partial<Record<FactPath, string>>>;

/** What the chosen lots answer at this moment; a lot that is no longer on the list answers nothing. */
export function lotFacts(input: {
  readonly chosen: LotsChosen;
  readonly lots: readonly KeptLot[];
  readonly now: number;
  readonly units: UnitSystem;
}): LotFacts {
  const { chosen, now, units } = input;
  const facts: Partial<Record<FactPath, string>> = {};
  for (const { lot, uses } of chosenOf(input)) {
    const json = lotAnswers({ lot, now, uses, instantOf: (day) => wallInstant({ day, time: '12:00' }) ?? now });
    for (const path of FACT_PATHS) {
      const value = valueAt({ json, path: path.split('.') });
      if (typeof value === 'number') facts[path] = typedText({ path, value, units });
      if (typeof value === 'boolean') facts[path] = value ? 'yes' : 'no';
      if (typeof value === 'string') facts[path] = value;
    }
  }
  return Object.keys(chosen).length === 0 ? NONE : facts;
}

const NONE: LotFacts = {};

/** The chosen lots that are still on the list. */
export const chosenOf = (input: {
  readonly chosen: LotsChosen;
  readonly lots: readonly KeptLot[];
}): readonly KeptLot[] => {
  const ids = new Set<string | undefined>(Object.values(input.chosen));
  return input.lots.filter(({ lot }) => ids.has(lot.lotId));
};

/** The draft as it is planned: what the lots say, under what was typed. */
export const withLotFacts = (draft: Draft, facts: LotFacts): Draft =>
  facts === NONE ? draft : { ...draft, facts: { ...facts, ...draft.facts } };

/** The draft as it is kept: only what was typed; what a lot said is asked of it again. */
export function withoutLotFacts(input: {
  /** As changed on the screen. */
  readonly draft: Draft;
  /** As it was kept before. */
  readonly kept: Draft;
  readonly facts: LotFacts;
}): Draft {
  const { draft, kept } = input;
  const said: Readonly<Record<string, string | undefined>> = input.facts;
  const typed = Object.entries(draft.facts).filter(([path, text]) => path in kept.facts || said[path] !== text);
  return { ...draft, facts: Object.fromEntries(typed) };
}
