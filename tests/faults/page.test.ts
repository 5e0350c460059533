import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PARTS } from './parts.ts';
import { reliabilityPage } from './reliability-page.ts';
import { isClean, lastLine, ranOf, resultsSchema } from './results.ts';

const doc = (name: string): string => readFileSync(new URL(`../../docs/${name}`, import.meta.url), 'utf8');

describe('the page of what was tried', () => {
  it('says what the kept counts say, and nothing else', async () => {
    const results = resultsSchema.parse(JSON.parse(doc('reliability.json')));
    expect(doc('reliability.md')).toBe(await reliabilityPage(results));
    expect(isClean(Object.values(results))).toBe(true);
    // Nothing of it was left out, and nothing made smaller.
    expect(Object.keys(results).toSorted()).toEqual(Object.keys(PARTS).toSorted());
    expect(Object.values(results).map(({ share, result }) => [share, result.leftOut])).toEqual(Object.keys(PARTS).map(() => [1, undefined])); // prettier-ignore
  });

  it('does not call a run clean that lost one event', () => {
    const part = { name: 'x', title: 'X', shows: '', showsNot: '', run: () => Promise.reject(new Error('not run')) };
    const result = { figures: [], lost: 1, duplicated: 0, corrupt: 0, failures: [] };
    const ran = ranOf({ part, result, seed: 1, share: 1, startedMs: 0, endedMs: 0 });
    expect(isClean([ran])).toBe(false);
    expect(lastLine([ran])).toBe('faults: 1 lost, 0 duplicated, 0 corrupt');
  });
});
