import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { openWords, sayFrom, type Catalogues } from '../../../exchange/words.ts';

const ROOT = fileURLToPath(new URL('../../../../', import.meta.url));
const json = (path: string): object => JSON.parse(readFileSync(path, 'utf8')) as object;
const filesOf = (language: string): Record<string, object> =>
  Object.fromEntries(
    readdirSync(join(ROOT, 'words', language))
      .filter((file) => file.endsWith('.json'))
      .map((file) => [file.replace('.json', ''), json(join(ROOT, 'words', language, file))]),
  );
const catalogues: Catalogues = { 'en-GB': filesOf('en-GB'), 'en-US': filesOf('en-US') };
const words = openWords({ language: 'en-GB', catalogues });
const say = sayFrom(words);

const flat = (words: object, prefix = ''): [string, string][] =>
  Object.entries(words).flatMap(([key, value]) =>
    typeof value === 'string' ? [[prefix + key, value] as [string, string]] : flat(value as object, `${prefix}${key}.`),
  );
const sources = readdirSync(join(ROOT, 'src/doors/web'), { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.tsx?$/.test(path) && !/\.test\./.test(path))
  .map((path) => readFileSync(join(ROOT, 'src/doors/web', path), 'utf8'));

describe('the words on screen', () => {
  it('are all in the catalogue: no screen shows a key instead of a sentence', () => {
    const asked = new Set(sources.flatMap((source) => [...source.matchAll(/'([a-z]+:[A-Za-z0-9.-]+)'/g)].map((match) => match[1] ?? ''))); // prettier-ignore
    const keys = [...asked].filter((key) => catalogues['en-GB']?.[key.split(':')[0] ?? ''] !== undefined);
    const missing = keys.filter((key) => !words.exists(key, { count: 2 }));
    expect(keys.length).toBeGreaterThan(80);
    expect(missing).toEqual([]);
  });

  it('stand in UK English wherever US English differs', () => {
    for (const [name, words] of Object.entries(catalogues['en-US'] ?? {})) {
      const known = new Map(flat(catalogues['en-GB']?.[name] ?? {}));
      expect(flat(words).filter(([key]) => !known.has(key)), name).toEqual([]); // prettier-ignore
    }
  });

  it('use no sign that the two typefaces lack, and none of the words that are not ours', () => {
    const all = (['en-GB', 'en-US'] as const).flatMap((language) => Object.values(catalogues[language] ?? {}).flatMap((words) => flat(words))); // prettier-ignore
    expect(all.length).toBeGreaterThan(200);
    expect(all.filter(([, text]) => /[≤≥≈→‰µ↓↑′″]/.test(text))).toEqual([]);
    // The command line speaks to tinkerers too: it may name the members of an ensemble.
    const onScreen = (['en-GB', 'en-US'] as const).flatMap((language) => Object.entries(catalogues[language] ?? {}).flatMap(([name, file]) => (name === 'plan-text' ? [] : flat(file)))); // prettier-ignore
    const never = /\b(success|oops|great job|smart|AI|wizard|dashboard|widget|sync failed|are you sure|ensemble|members|prior)\b/i; // prettier-ignore
    expect(onScreen.filter(([, text]) => never.test(text))).toEqual([]);
  });

  it('fall back to UK English where US English says nothing of its own', () => {
    const american = sayFrom(openWords({ language: 'en-US', catalogues }));
    expect(american('plan:sentence.cartons.whole')).toBe('whole, pasteurized');
    expect(american('plan:title')).toBe('Plan a make');
  });

  it('count in the singular and the plural', () => {
    expect([1, 5].map((count) => say('plan:makes.keeps', { count }))).toEqual(['keeps 1 day', 'keeps 5 days']);
  });
});
