/** The fields of a sum, read from the JSON Schema that the contract publishes: no sum has a form of its own. */
import { z } from 'zod';
import { isRecord } from '../../make/problems.ts';
import { calcSchemas } from '../calc/schema.ts';

interface Leaf {
  /** Path in the sum's input: `milk.fatPercent`. Of a column, the name inside its row. */
  readonly path: string;
  readonly required: boolean;
  /** What the sum takes when nothing is said, as text in the contract's unit. */
  readonly assumed: string | null;
  /** The part of the input (`wash.`) that asks for this field as soon as anything else of it is given; null elsewhere. */
  readonly group: string | null;
}
export interface NumberField extends Leaf {
  readonly kind: 'number';
}
export interface ChoiceField extends Leaf {
  readonly kind: 'choice';
  readonly options: readonly string[];
  /** True for a yes or no; the options are `yes` and `no`. */
  readonly isYesNo: boolean;
}
export interface TextField extends Leaf {
  readonly kind: 'text';
}
export type LeafField = NumberField | ChoiceField | TextField;

/** A small table: each row has the same columns. A plain list of numbers has one column with an empty path. */
export interface RowsField {
  readonly kind: 'rows';
  readonly path: string;
  readonly required: boolean;
  readonly columns: readonly LeafField[];
  readonly most: number;
  readonly assumed: null;
}
export type SumField = LeafField | RowsField;

type Node = z.infer<typeof nodeSchema>;
const nodeSchema = z.looseObject({
  type: z.string().optional(),
  enum: z.array(z.string()).optional(),
  default: z.unknown().optional(),
  maxItems: z.number().optional(),
  get properties(): z.ZodOptional<z.ZodRecord<z.ZodString, typeof nodeSchema>> {
    return z.record(z.string(), nodeSchema).optional();
  },
  required: z.array(z.string()).optional(),
  get items(): z.ZodOptional<typeof nodeSchema> {
    return nodeSchema.optional();
  },
});

const MOST_ROWS = 40; // our own choice for a screen; the sums take more

/**
 * Every field of a sum, nested ones by their path, in the order of its schema.
 * @throws InputError for a name that no sum has
 */
export function fieldsOfSum(name: string): readonly SumField[] {
  const { input } = calcSchemas(name);
  return fieldsOf({ node: nodeSchema.parse(input), prefix: '', required: true, given: undefined });
}

function fieldsOf(input: {
  readonly node: Node;
  readonly prefix: string;
  readonly required: boolean;
  readonly given: unknown;
}): SumField[] {
  const { node, prefix } = input;
  return Object.entries(node.properties ?? {}).flatMap(([key, child]): SumField[] => {
    const path = prefix + key;
    const required = input.required && (node.required ?? []).includes(key) && child.default === undefined;
    const assumedHere = child.default ?? valueIn(input.given, key);
    if (child.type === 'object') {
      return fieldsOf({ node: child, prefix: `${path}.`, required, given: assumedHere });
    }
    if (child.type === 'array') return [rowsField({ child, path, required })];
    const isAsked = prefix !== '' && !required && assumedHere === undefined && (node.required ?? []).includes(key);
    return [leafField({ node: child, path, required, assumed: assumedHere, group: isAsked ? prefix : null })];
  });
}

function rowsField(input: { readonly child: Node; readonly path: string; readonly required: boolean }): RowsField {
  const items = input.child.items ?? { type: 'number' };
  const columns =
    items.type === 'object'
      ? Object.entries(items.properties ?? {}).map(([key, node]) =>
          leafField({ node, path: key, required: (items.required ?? []).includes(key), assumed: node.default }),
        )
      : [leafField({ node: items, path: '', required: true, assumed: undefined })];
  const most = Math.min(input.child.maxItems ?? MOST_ROWS, MOST_ROWS);
  return { kind: 'rows', path: input.path, required: input.required, columns, most, assumed: null };
}

function leafField(input: {
  readonly node: Node;
  readonly path: string;
  readonly required: boolean;
  readonly assumed: unknown;
  readonly group?: string | null;
}): LeafField {
  const { node, path, required, group = null } = input;
  const leaf = { path, required, assumed: leafText(input.assumed), group };
  if (node.type === 'boolean') return { ...leaf, kind: 'choice', options: ['no', 'yes'], isYesNo: true };
  if (node.enum !== undefined) return { ...leaf, kind: 'choice', options: node.enum, isYesNo: false };
  return { ...leaf, kind: node.type === 'string' ? 'text' : 'number' };
}

/** A leaf of JSON as the text of its field. */
export function leafText(value: unknown): string | null {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return String(value);
  return typeof value === 'string' ? value : null;
}

/** What stands in a cell that nobody has touched. */
export const untouched = (column: LeafField): string => (column.kind === 'choice' && column.isYesNo ? 'no' : '');

const valueIn = (value: unknown, key: string): unknown => (isRecord(value) ? value[key] : undefined);
