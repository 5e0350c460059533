/** Finding and reading makes: by id from the shelf, or any file by its path. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { parseMake, type Make } from '../../make/make.ts';
import { InputError } from '../../numbers/validity.ts';
import { ROOT } from './catalogues.ts';
import type { World } from './world.ts';

const SHELF = join(ROOT, 'makes');

/** Ids of the makes on the shelf: the names of their files. */
export const makeIds = (): string[] =>
  readdirSync(SHELF)
    .filter((name) => name.endsWith('.json'))
    .map((name) => name.slice(0, -'.json'.length))
    .sort();

/**
 * One make.
 * @param named an id (`stretched-ball`), or a path to a file
 * @throws InputError for an unknown id, a file that cannot be read, is not JSON, or is no make
 */
export function readMake(world: World, named: string): Make {
  const isPath = named.endsWith('.json') || named.includes('/') || named.includes('\\');
  if (!isPath && !makeIds().includes(named)) {
    throw refused(
      'unknown-choice',
      named,
      makeIds().join(', '),
      'Choose one of these, or give the path of a make file.',
    );
  }
  const path = isPath ? named : join(SHELF, `${named}.json`);
  let text: string;
  try {
    text = world.readFile(path);
  } catch {
    throw refused('unreadable', named, 'a file that can be read', 'Check the path and that you may read it.');
  }
  return parseMake(readJson({ text, field: 'make', named }));
}

/**
 * Parsed JSON.
 * @throws InputError saying where the text stops being JSON
 */
export function readJson(input: { readonly text: string; readonly field: string; readonly named: string }): unknown {
  try {
    return JSON.parse(input.text) as unknown;
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new InputError([
      {
        code: 'unreadable',
        field: input.field,
        value: input.named,
        expected: 'JSON',
        remedy: `Mend the file: ${why}.`,
      },
    ]);
  }
}

function refused(code: 'unknown-choice' | 'unreadable', value: string, expected: string, remedy: string): InputError {
  return new InputError([{ code, field: 'make', value, expected, remedy }]);
}
