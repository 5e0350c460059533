import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { answer } from '../../exchange/calc/answer.ts';
import { calculators } from '../../exchange/calc/registry.ts';
import { LANGUAGES, openWords, sayFrom, type Language, type Say } from '../../exchange/words.ts';
import type { Sums } from './sum-routes.ts';

const catalogueSchema = z.record(z.string(), z.json());

/** Every sum of the contract, with its cautions in the words of a folder of catalogues. */
export function sumsIn(wordsDir: string): Sums {
  const say = sayIn(wordsDir);
  return new Map(
    [...calculators.values()].map(({ name, answers, input, result, example }) => [
      name,
      { name, answers, input, result, example, answer: (json: unknown) => answer({ name, input: json, say }) },
    ]),
  );
}

/** The speaking function of a folder of catalogues, in one language. */
export function sayIn(wordsDir: string, speaks: Language = 'en-GB'): Say {
  const catalogues = Object.fromEntries(
    LANGUAGES.map((language) => [
      language,
      Object.fromEntries(
        readdirSync(join(wordsDir, language))
          .filter((file) => file.endsWith('.json'))
          .map((file) => [
            file.replace(/\.json$/, ''),
            catalogueSchema.parse(JSON.parse(readFileSync(join(wordsDir, language, file), 'utf8'))),
          ]),
      ),
    ]),
  );
  return sayFrom(openWords({ language: speaks, catalogues }));
}
