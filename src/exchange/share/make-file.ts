/** A make as a file of its own, written and read: the JSON of `docs/make.schema.json`. */
import { parseMake, type Make } from '../../make/make.ts';
import { checkedJson, DEEPEST } from '../copy/checked-json.ts';
import { InputError } from '../../numbers/validity.ts';

/** Longer than any make: a file that is something else is not taken apart first. Our own choice. */
const LARGEST_CHARS = 1_000_000;

/** The make as text, its schema named first; what is read back is the same make. */
export function makeFileText(make: Make): string {
  const { $schema: _, ...rest } = make;
  return `${JSON.stringify({ $schema: SCHEMA, ...rest }, null, 2)}\n`;
}

/** Beside the file where the schema is handed on with it. */
const SCHEMA = 'make.schema.json';

/**
 * Reads a make file whole, or nothing of it.
 * @throws InputError saying where the text stops being JSON, or every problem of the make with its path
 */
export function readMakeFile(text: string): Make {
  if (text.length > LARGEST_CHARS) throw unreadable(`a file under ${LARGEST_CHARS / 1_000_000} MB`, 'This is larger than any make. Choose the make file.');
  const plain = text.replace(/^\uFEFF/, '');
  const checked = checkedJson(plain);
  if ('fault' in checked && checked.fault === 'too-deep') throw unreadable(`JSON nested at most ${DEEPEST} deep`, 'No make is: choose the make file.');
  let json: unknown;
  try {
    json = JSON.parse(plain);
  } catch (error) {
    throw unreadable('JSON', `Mend the file, or save it anew: ${error instanceof Error ? error.message : 'it is not JSON'}.`);
  }
  return parseMake(json);
} // prettier-ignore

const unreadable = (expected: string, remedy: string): InputError =>
  new InputError([{ code: 'unreadable', field: 'file', value: undefined, expected, remedy }]);

/** A name for a file that says what is in it; letters, figures and dashes alone. */
export const fileName = (...parts: readonly string[]): string =>
  parts
    .map((part) =>
      part
        .normalize('NFKD')
        .toLowerCase()
        .replaceAll(/[^a-z0-9.]+/g, '-')
        .replaceAll(/^-|-$/g, ''),
    )
    .filter((part) => part !== '')
    .join('-');
