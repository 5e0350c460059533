/** What stands in the blanks of one sum, as typed; it is a link, and it survives a reload. */
import { convert } from '../../../numbers/units.ts';
import { readTyped, shortText } from '../../../exchange/typed-quantity.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { leafText, type SumField } from '../../../exchange/told/field-shapes.ts';
import { typedUnit, unitOfField } from '../../../exchange/told/unit-of.ts';

export interface SumDraft {
  /** In which the numbers were typed. */
  readonly units: UnitSystem;
  /** By path, rows counted: `readings.0.pH`. What is not here is assumed. */
  readonly texts: Readonly<Record<string, string>>;
  /** Paths that still hold the worked example's value; of a table, the path of the table. */
  readonly examples: readonly string[];
}

/** The path without what stands inside a table: `readings.0.pH` belongs to `readings`. */
export const fieldPathOf = (path: string): string => path.replace(/\.\d+(\..*)?$/, '');

/** The worked example of a sum in a reader's units. */
export function exampleDraft(input: { readonly example: unknown; readonly units: UnitSystem }): SumDraft {
  const texts = Object.fromEntries(leaves(input.example, ''));
  const examples = [...new Set(Object.keys(texts).map(fieldPathOf))];
  return inUnits({ draft: { units: 'metric', texts, examples }, units: input.units });
}

function leaves(value: unknown, path: string): [string, string][] {
  const text = leafText(value);
  if (text !== null) return [[path, text]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => leaves(inner, path === '' ? key : `${path}.${key}`));
}

/** One blank as it is typed; null gives it back to what is assumed. */
export function withText(input: {
  readonly draft: SumDraft;
  readonly path: string;
  readonly text: string | null;
}): SumDraft {
  const { draft, path, text } = input;
  const { [path]: _gone, ...others } = draft.texts;
  return {
    ...draft,
    texts: text === null ? others : { ...others, [path]: text },
    examples: draft.examples.filter((one) => one !== fieldPathOf(path)),
  };
}

/** The rows of a table as typed. */
export function rowsOf(input: { readonly draft: SumDraft; readonly path: string }): readonly Record<string, string>[] {
  const rows: Record<string, string>[] = [];
  const start = `${input.path}.`;
  for (const [path, text] of Object.entries(input.draft.texts)) {
    if (!path.startsWith(start)) continue;
    const [index = '', ...column] = path.slice(start.length).split('.');
    if (!/^\d+$/.test(index)) continue;
    (rows[Number(index)] ??= {})[column.join('.')] = text;
  }
  return Array.from(rows, (row) => row ?? {});
}

/** All rows of a table at once: a row was added or taken out. */
export function withRows(input: {
  readonly draft: SumDraft;
  readonly path: string;
  readonly rows: readonly Readonly<Record<string, string>>[];
}): SumDraft {
  const { draft, path, rows } = input;
  const others = Object.entries(draft.texts).filter(([one]) => !one.startsWith(`${path}.`));
  const cells = rows.flatMap((row, index) =>
    Object.entries(row).map(([column, text]) => [cellPath({ path, index, column }), text] as const),
  );
  return {
    ...draft,
    texts: Object.fromEntries([...others, ...cells]),
    examples: draft.examples.filter((one) => one !== path),
  };
}

/** Where a cell of a table stands in the draft. */
export const cellPath = (input: { readonly path: string; readonly index: number; readonly column: string }): string =>
  `${input.path}.${input.index}${input.column === '' ? '' : `.${input.column}`}`;

/** The same draft in a reader's units; what is no number stays as typed. */
export function inUnits(input: { readonly draft: SumDraft; readonly units: UnitSystem }): SumDraft {
  const { draft, units } = input;
  if (draft.units === units) return draft;
  const texts = Object.entries(draft.texts).map(([path, text]): [string, string] => {
    const unit = unitOfField(path);
    const from = typedUnit({ unit, units: draft.units });
    const to = typedUnit({ unit, units });
    if (from === null || to === null || from === to) return [path, text];
    const read = readTyped({ text, field: path, unit: from, into: from });
    return 'value' in read ? [path, shortText(convert({ value: read.value, from, to }))] : [path, text];
  });
  return { ...draft, units, texts: Object.fromEntries(texts) };
}

const UNITS_KEY = 'units';
const EXAMPLES_KEY = 'example';

/** The draft as the query of a link. */
export function linkOf(draft: SumDraft): string {
  const query = new URLSearchParams(Object.entries(draft.texts));
  if (draft.units === 'us') query.set(UNITS_KEY, 'us');
  if (draft.examples.length > 0) query.set(EXAMPLES_KEY, draft.examples.join(' '));
  return query.toString();
}

/** The draft of a link; null where it carries nothing of this sum. What the sum does not know is passed over. */
export function draftOfLink(input: { readonly query: string; readonly fields: readonly SumField[] }): SumDraft | null {
  const query = new URLSearchParams(input.query);
  const known = new Map(input.fields.map((field) => [field.path, field]));
  const texts: Record<string, string> = {};
  for (const [path, text] of query) {
    if (path === UNITS_KEY || path === EXAMPLES_KEY) continue;
    const field = known.get(fieldPathOf(path));
    if (field === undefined) continue;
    if (field.kind === 'rows') {
      const index = Number(path.slice(field.path.length + 1).split('.')[0]);
      if (!(index < field.most)) continue;
    } else if (path !== field.path) continue;
    texts[path] = text;
  }
  if (Object.keys(texts).length === 0) return null;
  const examples = (query.get(EXAMPLES_KEY) ?? '').split(' ').filter((path) => known.has(path));
  return { units: query.get(UNITS_KEY) === 'us' ? 'us' : 'metric', texts, examples };
}
