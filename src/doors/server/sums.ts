import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { answer, withWords } from '../../exchange/calc/answer.ts';
import { calculators } from '../../exchange/calc/registry.ts';
import { LANGUAGES, openWords, sayFrom, type Language, type Say } from '../../exchange/words.ts';
import type { LongWork } from './aside/worked-out.ts';
import type { Sums } from './sum-routes.ts';

const catalogueSchema = z.record(z.string(), z.json());

/**
 * Every sum of the contract, with its cautions in the words of a folder of catalogues.
 * @param longOnes  does those that may take seconds; they are done on the thread that asks where left out
 */
export function sumsIn(wordsDir: string, longOnes?: LongWork['sum']): Sums {
  const say = sayIn(wordsDir);
  return new Map(
    [...calculators.values()].map(({ name, answers, input, result, example, isLong }) => {
      const here = (json: unknown): object => answer({ name, input: json, say });
      const sum = { name, answers, input, result, example };
      if (isLong !== true || longOnes === undefined) return [name, { ...sum, answer: here }];
      return [name, { ...sum, answer: async (json: unknown) => withWords(await longOnes({ name, input: json }), say) }];
    }),
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
