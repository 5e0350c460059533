/** From blanks to the contract's JSON: numbers are read in the reader's units and come out in the contract's. */
import { readTyped } from '../../../exchange/typed-quantity.ts';
import { isRecord } from '../../../make/problems.ts';
import type { Problem } from '../../../numbers/validity.ts';
import { untouched, type LeafField, type SumField } from '../../../exchange/told/field-shapes.ts';
import { cellPath, rowsOf, type SumDraft } from './sum-draft.ts';
import { typedUnit, unitOfField } from '../../../exchange/told/unit-of.ts';

export interface SumInput {
  /** Null while something is wrong or blank. */
  readonly json: Readonly<Record<string, unknown>> | null;
  /** What cannot be read, by path. */
  readonly problems: readonly Problem[];
  /** Paths that must have something in them and have not. */
  readonly blanks: readonly string[];
}

type Cell = { readonly path: string; readonly field: LeafField; readonly text: string };

/**
 * The input of a sum as its blanks say.
 * @returns JSON for the sum, or what is in the way; an optional blank that is empty is left to be assumed
 */
export function sumInput(input: { readonly fields: readonly SumField[]; readonly draft: SumDraft }): SumInput {
  const { fields, draft } = input;
  const problems: Problem[] = [];
  const blanks: string[] = [];
  const json: Record<string, unknown> = {};
  for (const field of fields) {
    if (field.kind === 'rows') {
      const cells = filledRows({ field: field.path, columns: field.columns, draft });
      if (field.required && cells.length === 0) blanks.push(field.path);
      for (const cell of cells) take(cell);
    } else {
      const text = draft.texts[field.path];
      // A group of its own (washing) asks for all its blanks once one of them is filled.
      const required = field.required || isGroupBegun({ field, draft });
      if (text === undefined && !required) continue;
      take({ path: field.path, field: { ...field, required }, text: text ?? '' });
    }
  }
  const isWhole = problems.length === 0 && blanks.length === 0;
  return { json: isWhole ? json : null, problems, blanks };

  function take({ path, field, text }: Cell): void {
    if (text.trim() === '') {
      if (field.required) blanks.push(path);
      return;
    }
    const value = valueOf({ path, field, text, draft });
    if (value !== null && typeof value === 'object') problems.push(value);
    else place({ json, path, value });
  }
}

function isGroupBegun(input: { readonly field: LeafField; readonly draft: SumDraft }): boolean {
  const { group } = input.field;
  return (
    group !== null && Object.entries(input.draft.texts).some(([path, text]) => path.startsWith(group) && text !== '')
  );
}

/** The cells of every row that has something in it; an empty last row is nobody's mistake. */
function filledRows(input: {
  readonly field: string;
  readonly columns: readonly LeafField[];
  readonly draft: SumDraft;
}): Cell[] {
  const filled = rowsOf({ draft: input.draft, path: input.field })
    .map((row, index) => ({ row, index }))
    .filter(({ row }) => input.columns.some((column) => column.kind !== 'choice' && (row[column.path] ?? '') !== ''));
  // The contract's rows are counted without the empty ones; problems come back under those numbers.
  return filled.flatMap(({ row }, index) =>
    input.columns.map((field) => ({
      path: cellPath({ path: input.field, index, column: field.path }),
      field,
      text: row[field.path] ?? untouched(field),
    })),
  );
}

function valueOf(input: Cell & { readonly draft: SumDraft }): number | string | boolean | Problem {
  const { path, field, text, draft } = input;
  if (field.kind === 'choice') return field.isYesNo ? text === 'yes' : text;
  if (field.kind === 'text') return text;
  const unit = unitOfField(path);
  const typed = typedUnit({ unit, units: draft.units });
  const withUnit = typed === null || unit.house === null ? {} : { unit: typed, into: unit.house };
  const read = readTyped({ text, field: path, ...withUnit });
  return 'value' in read ? read.value : read.problem;
}

/** Puts a value at `readings.0.pH`, making what is on the way. */
function place(input: {
  readonly json: Record<string, unknown>;
  readonly path: string;
  readonly value: unknown;
}): void {
  const parts = input.path.split('.');
  let here: Record<PropertyKey, unknown> = input.json;
  for (const [depth, part] of parts.entries()) {
    const next = parts[depth + 1];
    if (next === undefined) {
      here[part] = input.value;
      return;
    }
    const inner = here[part] ?? (/^\d+$/.test(next) ? [] : {});
    here[part] = inner;
    if (!isRecord(inner)) return;
    here = inner;
  }
}
