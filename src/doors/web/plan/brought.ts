/** What another place brings into the plan: facts or a lot, and the words in which the plan says so once. */
import { z } from 'zod';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { LotRecord } from '../../../record/lot-record.ts';
import { withLot } from './chosen-lots.ts';
import type { FactPath } from './draft-fields.ts';
import { withFact } from './draft.ts';
import { keepDraft, leftDraft } from './use-draft.ts';

const broughtSchema = z.object({ brought: z.string() });

/** State of the history entry that carries the words. */
export type Brought = z.infer<typeof broughtSchema>;

/** The words that came with this entry of the history; null where the plan was opened by itself. */
export function broughtWords(state: unknown): string | null {
  const read = broughtSchema.safeParse(state);
  return read.success ? read.data.brought : null;
}

/** Puts facts into the plan as it was left. A strength of its own takes the place of a bottle of the list. */
export function bringToPlan(input: {
  readonly facts: readonly { readonly path: FactPath; readonly text: string }[];
  readonly words: string;
  readonly units: UnitSystem;
}): Brought {
  const { facts, words, units } = input;
  const isRennet = facts.some(({ path }) => path === 'rennet.strengthImcuPerMl');
  const left = leftDraft(units);
  const bare = isRennet ? withLot(left, { kind: 'rennet', lotId: null }) : left;
  keepDraft(facts.reduce((draft, { path, text }) => withFact(draft, path, text), bare));
  return { brought: words };
}

/** Chooses a packet or bottle of the list for the plan as it was left. */
export function bringLotToPlan(input: {
  readonly lot: Pick<LotRecord, 'lotId' | 'kind' | 'name'>;
  readonly units: UnitSystem;
}): Brought {
  const { lotId, kind, name } = input.lot;
  if (kind === 'rennet' || kind === 'culture' || kind === 'calcium') {
    keepDraft(withLot(leftDraft(input.units), { kind, lotId }));
  }
  return { brought: name };
}
