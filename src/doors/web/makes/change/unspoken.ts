import type { Book } from '../../../../exchange/book.ts';
import type { Make } from '../../../../make/make.ts';
import { spokenMake } from '../../../../make/spoken.ts';
import type { Written } from './written.ts';

/** Names that a make is also looked up by: told in no language, whoever writes them. */
const NEVER_TOLD: ReadonlySet<string> = new Set(['aliases']);

/**
 * A make written in the reader's language as it is kept: sentences that still say what they said when they came stand as they
 * were written, so that readers of other languages are told them in theirs; what was changed stands as it was typed.
 * @param input.basis  the makes whose sentences the reader began from
 */
export function asKept(input: {
  readonly written: Written;
  readonly basis: readonly Make[];
  readonly book: Pick<Book, 'tell'>;
}): Written {
  const { written, basis, book } = input;
  const meant = new Map<string, string>();
  const noteDown = (text: string): string => {
    const said = book.tell(text);
    if (said !== text && !meant.has(said)) meant.set(said, text);
    return said;
  };
  for (const make of basis) spokenMake(make, noteDown);
  if (meant.size === 0) return written;
  const kept = (node: unknown): unknown => {
    if (typeof node === 'string') return meant.get(node) ?? node;
    if (Array.isArray(node)) return node.map(kept);
    return typeof node === 'object' && node !== null ? entriesOf(node, kept) : node;
  };
  return entriesOf(written, kept);
}

const entriesOf = (node: object, of: (one: unknown) => unknown): Record<string, unknown> =>
  Object.fromEntries(Object.entries(node).map(([name, one]: [string, unknown]) => [name, NEVER_TOLD.has(name) ? one : of(one)])); // prettier-ignore
