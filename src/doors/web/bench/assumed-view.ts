/** What a sum took for granted: fields that can be changed, each with what was taken, and what is only said. */
import { told, type Say } from '../../../exchange/words.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import type { LeafField, SumField } from '../../../exchange/told/field-shapes.ts';
import { shortText } from '../../../exchange/typed-quantity.ts';
import type { SumDraft } from './sum-draft.ts';
import { withLabels } from '../../../exchange/told/sum-words.ts';
import { typedValue, unitOfField } from '../../../exchange/told/unit-of.ts';

export interface AssumedRow {
  readonly field: LeafField;
  readonly text: string;
  readonly isAssumed: boolean;
  /** What the sum itself said it took, where the field cannot show it. */
  readonly hint: string | null;
}
export interface AssumedView {
  readonly rows: readonly AssumedRow[];
  /** Sentences that belong to no field. */
  readonly lines: readonly string[];
}

/** The default of a field as it would be typed in a reader's units. */
export function assumedText(input: { readonly field: LeafField; readonly units: UnitSystem }): string {
  const { field, units } = input;
  if (field.assumed === null || field.kind !== 'number') return field.assumed ?? '';
  const typed = typedValue({ value: Number(field.assumed), unit: unitOfField(field.path), units });
  return typed === null ? field.assumed : shortText(typed);
}

/** What stands in a field: what was typed, else what is assumed. */
export const shownText = (input: { readonly field: LeafField; readonly draft: SumDraft }): string =>
  input.draft.texts[input.field.path] ?? assumedText({ field: input.field, units: input.draft.units });

/**
 * The fields beside the sentence and the sentences of the sum itself.
 * @param input.inSentence paths that the sentence has a blank for
 * @param input.assumptions as the sum gave them back
 */
export function assumedView(input: {
  readonly fields: readonly SumField[];
  readonly inSentence: readonly string[];
  readonly hidden: readonly string[];
  readonly draft: SumDraft;
  readonly assumptions: readonly string[];
  /** Names of the sum's results, which its sentences may speak of. */
  readonly results?: readonly string[];
  readonly say: Say;
  readonly sum: string;
}): AssumedView {
  const { fields, inSentence, hidden, draft, say, sum } = input;
  const paths = fields.map((field) => field.path);
  const beside = fields.filter(
    (field): field is LeafField =>
      field.kind !== 'rows' && !inSentence.includes(field.path) && !hidden.includes(field.path),
  );
  const inWords = (text: string): string =>
    sentenceInUnits({
      text: withLabels({ text: told(say, text), say, sum, paths, results: input.results ?? [] }),
      units: draft.units,
    });
  const said = input.assumptions.map(clausesOf);
  const hints = new Map<string, string>();
  const lines: string[] = [];
  for (const clauses of said) {
    const left = clauses.filter(({ name, rest }) => {
      const any = fields.find((one): one is LeafField => one.kind !== 'rows' && one.path === name);
      if (any !== undefined && isShown({ field: any, draft, rest })) return false;
      const field = beside.find((one) => one.path === name);
      if (field === undefined) return true;
      hints.set(field.path, inWords(inTyped({ field, rest, units: draft.units })));
      return false;
    });
    const isHidden = left.some(({ text }) => hidden.some((path) => new RegExp(`\\b${path}\\b`).test(text)));
    if (left.length > 0 && !isHidden) lines.push(inWords(left.map(({ text }) => text).join('; ')));
  }
  return {
    rows: beside.map((field) => ({
      field,
      text: shownText({ field, draft }),
      isAssumed: (draft.texts[field.path] ?? '') === '',
      hint: hints.get(field.path) ?? null,
    })),
    lines,
  };
}

/** True where the field itself already says it. */
const isShown = (input: { readonly field: LeafField; readonly draft: SumDraft; readonly rest: string }): boolean =>
  input.rest === shownText(input) ||
  (input.rest === input.field.assumed && input.draft.texts[input.field.path] === undefined);

/** The figure that a hint begins with, in the unit of the field above it. */
function inTyped(input: { readonly field: LeafField; readonly rest: string; readonly units: UnitSystem }): string {
  const { field, rest, units } = input;
  if (field.kind !== 'number') return rest;
  const unit = unitOfField(field.path);
  return rest.replace(/^-?\d+(\.\d+)?/, (figure) => {
    const typed = typedValue({ value: Number(figure), unit, units });
    return typed === null ? figure : shortText(typed);
  });
}

/** `moisturePercent: 50; fatPercent: half of the solids` says two things; a remark after a comma belongs to its field. */
function clausesOf(line: string): { readonly text: string; readonly name: string; readonly rest: string }[] {
  return line
    .trim()
    .split(/[;,] (?=[a-z][\w.]*: )/)
    .map((text) => {
      const match = /^([A-Za-z][\w.]*): (.*)$/.exec(text);
      return {
        text,
        name: match?.[1] ?? '',
        rest: (match?.[2] ?? '').replace(/^(true|false)\b/, (word) => YES_NO[word] ?? word),
      };
    });
}

const YES_NO: Readonly<Record<string, string>> = { true: 'yes', false: 'no' };
