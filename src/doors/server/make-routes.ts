import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { InputError, problemText } from '../../numbers/validity.ts';
import { parseMake, type Make } from '../../make/make.ts';
import type { Route } from './route.ts';

/** The makes of a folder, and what is wrong with the files that cannot be read. */
export interface MakeShelf {
  readonly makes: readonly Make[];
  readonly broken: readonly { readonly file: string; readonly problems: readonly string[] }[];
}

/** Reads every make file of a folder; a broken one does not hide the others. */
export function readShelf(folder: string): MakeShelf {
  const makes: Make[] = [];
  const broken: { file: string; problems: string[] }[] = [];
  for (const file of readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()) {
    try {
      makes.push(parseMake(JSON.parse(readFileSync(join(folder, file), 'utf8'))));
    } catch (error) {
      if (error instanceof InputError) broken.push({ file, problems: error.problems.map(problemText) });
      else if (error instanceof SyntaxError) broken.push({ file, problems: [`Not JSON: ${error.message}`] });
      else throw error;
    }
  }
  return { makes, broken };
}

const listSchema = z.object({
  makes: z.array(
    z.object({ id: z.string(), name: z.string(), family: z.string(), about: z.string(), difficulty: z.int() }),
  ),
  broken: z.array(z.object({ file: z.string(), problems: z.array(z.string()) })),
});

/** The makes on the shelf. */
export function makeRoutes(shelf: MakeShelf): Route[] {
  return [
    {
      method: 'get',
      path: '/api/makes',
      needs: 'reader',
      summary: 'The makes there are, by id, and files that could not be read.',
      result: listSchema,
      answer: (c) => c.json({ makes: shelf.makes.map(({ id, name, family, about, difficulty }) => ({ id, name, family, about, difficulty })), broken: shelf.broken }), // prettier-ignore
    },
  ];
}
