/** Blanks that exclude each other: which is filled, and changing to another without losing the thread. */
import { shortText } from '../../../exchange/typed-quantity.ts';
import { withText, type SumDraft } from './sum-draft.ts';
import { typedValue, unitOfField } from '../../../exchange/told/unit-of.ts';
import { numberAt } from '../../../exchange/told/value-at.ts';

/** The result that says the same as a blank, where the names differ. */
const SAID_AS: Readonly<Record<string, string>> = {
  targetPH: 'pH',
  targetC: 'finalC',
  targetCoreC: 'coreC',
  targetSaltPercent: 'saltPercent',
  targetFatPercent: 'fatPercent',
  targetCaseinToFat: 'caseinToFat',
};

/** The blank that is filled; the first where none is. */
export const filledOf = (input: { readonly draft: SumDraft; readonly paths: readonly string[] }): string =>
  input.paths.find((path) => input.draft.texts[path] !== undefined) ?? input.paths[0] ?? '';

/** Another of them is filled instead, with what the last answer says about it, so that the question stays the same. */
export function changedTo(input: {
  readonly draft: SumDraft;
  readonly paths: readonly string[];
  readonly to: string;
  /** Of the last answer; null where there is none. */
  readonly result: unknown;
}): SumDraft {
  const { paths, to, result } = input;
  const others = paths.filter((path) => path !== to);
  const cleared = others.reduce((draft, path) => withText({ draft, path, text: null }), input.draft);
  const known = numberAt(result, SAID_AS[to] ?? to);
  return withText({
    draft: cleared,
    path: to,
    text: known === null ? '' : typedText({ path: to, value: known, draft: cleared }),
  });
}

function typedText(input: { readonly path: string; readonly value: number; readonly draft: SumDraft }): string {
  const { path, value, draft } = input;
  return shortText(typedValue({ value, unit: unitOfField(path), units: draft.units }) ?? value);
}
