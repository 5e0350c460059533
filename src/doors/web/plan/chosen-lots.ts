/** Choosing a packet or bottle of the list for a draft: what it says gives way in the draft, so that the lot answers it. */
import type { FactPath } from './draft-fields.ts';
import type { Draft } from './draft.ts';

export type LotsChosen = Draft['lots'];

/** What a lot of each kind may say. */
const SAID_BY: Readonly<Record<keyof LotsChosen, readonly FactPath[]>> = {
  rennet: ['rennet.lot', 'rennet.form', 'rennet.strengthImcuPerMl', 'rennet.testedSpanImcuPerMl.low', 'rennet.testedSpanImcuPerMl.high', 'rennet.monthsStored'],
  culture: ['culture.lot', 'culture.form', 'culture.packetTreatsL', 'culture.packetMassG', 'culture.batchesWithLot'],
  calcium: ['calcium.lot', 'calcium.has', 'calcium.solutionPercent'],
}; // prettier-ignore

/** Facts without those that a lot of this kind says. */
export function factsWithout(facts: Draft['facts'], kind: keyof LotsChosen): Draft['facts'] {
  const gone: ReadonlySet<string> = new Set(SAID_BY[kind]);
  return Object.fromEntries(Object.entries(facts).filter(([path]) => !gone.has(path)));
}

/** The draft with a lot, or with none of that kind. */
export function withLot(
  draft: Draft,
  chosen: { readonly kind: keyof LotsChosen; readonly lotId: string | null },
): Draft {
  const { kind, lotId } = chosen;
  const { [kind]: _gone, ...others } = draft.lots;
  return { ...draft, facts: factsWithout(draft.facts, kind), lots: lotId === null ? others : { ...others, [kind]: lotId } }; // prettier-ignore
}
