import type { Draft } from './draft.ts';
import { withFact } from './draft.ts';

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
export type RennetKnown = (typeof RENNETS)[number];

const COMMON_STRENGTH = '200'; // IMCU/mL, common practice (no source)

export function rennetOf(draft: Draft): RennetKnown {
  const form = draft.facts['rennet.form'];
  if (form === 'powder' || form === 'tablet') return form;
  return 'rennet.strengthImcuPerMl' in draft.facts ? 'known' : 'some';
}

export function withRennet(draft: Draft, rennet: RennetKnown): Draft {
  const blank = withFact(withFact(draft, 'rennet.form', null), 'rennet.strengthImcuPerMl', null);
  if (rennet === 'some') return blank;
  if (rennet === 'known') return withFact(blank, 'rennet.strengthImcuPerMl', COMMON_STRENGTH);
  return withFact(blank, 'rennet.form', rennet);
}
