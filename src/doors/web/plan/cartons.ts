import type { Draft } from './draft.ts';
import { withFact } from './draft.ts';
import { withLot } from './chosen-lots.ts';

/** What stands on a carton, as one choice: treatment and fat together. */
export const CARTONS = ['whole', 'half', 'raw', 'high-heat', 'uht'] as const;
export type Carton = (typeof CARTONS)[number];

const HALF_FAT_PERCENT = '1.7'; // common practice (no source): semi-skimmed milk on sale has 1.5 to 2 % fat
const TREATMENTS = { whole: 'pasteurised', half: 'pasteurised', raw: 'raw', 'high-heat': 'high-heat', uht: 'uht' } as const; // prettier-ignore

export function cartonOf(draft: Draft): Carton {
  const treatment = draft.facts['milk.treatment'] ?? 'pasteurised';
  if (treatment === 'raw' || treatment === 'high-heat' || treatment === 'uht') return treatment;
  return draft.facts['milk.fatPercent'] === HALF_FAT_PERCENT ? 'half' : 'whole';
}

/** The draft with another carton; a fat that was typed by hand stays unless the carton says its own. */
export function withCarton(draft: Draft, carton: Carton): Draft {
  const treated = withFact(draft, 'milk.treatment', TREATMENTS[carton]);
  if (carton === 'half') return withFact(treated, 'milk.fatPercent', HALF_FAT_PERCENT);
  return cartonOf(draft) === 'half' ? withFact(treated, 'milk.fatPercent', null) : treated;
}

/** What the maker knows of the rennet. */
export const RENNETS = ['some', 'known', 'powder', 'tablet'] as const;
/** One of these, or a bottle of the list by its id. */
export type RennetKnown = (typeof RENNETS)[number] | `lot:${string}`;

const isLot = (text: string): text is `lot:${string}` => text.startsWith('lot:');

const NO_LOTS: ReadonlySet<string> = new Set();
const COMMON_STRENGTH = '200'; // IMCU/mL, common practice (no source)

/** @param onList ids of the bottles that are on the list; a chosen one that has left it is chosen no more */
export function rennetOf(draft: Draft, onList: ReadonlySet<string> = NO_LOTS): RennetKnown {
  const { rennet: lotId = '' } = draft.lots;
  if (isLot(lotId) && onList.has(lotId)) return lotId;
  const form = draft.facts['rennet.form'];
  if (form === 'powder' || form === 'tablet') return form;
  return 'rennet.strengthImcuPerMl' in draft.facts ? 'known' : 'some';
}

export function withRennet(draft: Draft, rennet: RennetKnown): Draft {
  const blank = withLot(draft, { kind: 'rennet', lotId: isLot(rennet) ? rennet : null });
  if (isLot(rennet)) return blank;
  if (rennet === 'some') return blank;
  if (rennet === 'known') return withFact(blank, 'rennet.strengthImcuPerMl', COMMON_STRENGTH);
  return withFact(blank, 'rennet.form', rennet);
}
