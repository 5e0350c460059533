/** The rennet sum filled in from a tested bottle. */
import { shortText } from '../../../exchange/typed-quantity.ts';
import type { Bottle } from '../lots/bottles.ts';
import type { SumDraft } from './sum-draft.ts';

/** Strength as tested, and the months since. */
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

const KEY = 'vatside.bench-bottle';

/** The bottle that was last chosen on this device, by its id. */
export const rememberedBottle = (): string => localStorage.getItem(KEY) ?? '';
export const rememberBottle = (lotId: string): void => localStorage.setItem(KEY, lotId);

/** The remembered bottle, while the sum's strength is still its own. */
export const chosenBottle = (input: {
  readonly bottles: readonly Bottle[];
  readonly draft: SumDraft;
  readonly remembered: string;
}): Bottle | null =>
  input.bottles.find((bottle) => bottle.lotId === input.remembered && isOfBottle({ draft: input.draft, bottle })) ??
  null;

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
