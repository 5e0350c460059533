import { describe, expect, it } from 'vitest';
import { describePublished } from './published.ts';
import {
  checkRow,
  judge,
  knownMisses,
  parseCsv,
  publishedFiles,
  readPublished,
  toleranceBand,
  valuesOf,
  type PublishedRow,
} from './rows.ts';

for (const file of publishedFiles()) describePublished(file, await valuesOf(file));

const row = (changes: Partial<PublishedRow>): PublishedRow => ({
  id: 'x-1',
  case: 'invented',
  published: 10,
  low: null,
  high: null,
  unit: 'min',
  tolerance: '3%',
  source: 'none',
  columns: {},
  ...changes,
});

describe('the list of published values', () => {
  it('uses every id once over all files, and names a miss only where there is a row', () => {
    const ids = publishedFiles().flatMap((file) => readPublished(file).map((each) => each.id));
    expect(ids.length).toBeGreaterThan(20);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of knownMisses().keys()) expect(ids).toContain(id);
  });

  it('reads the three kinds of tolerance', () => {
    expect(toleranceBand(row({ tolerance: 'span', low: 8, high: 11 }))).toEqual({ low: 8, high: 11 });
    expect(toleranceBand(row({ tolerance: '5%', published: -20 }))).toEqual({ low: -21, high: -19 });
    expect(toleranceBand(row({ tolerance: '0.5abs' }))).toEqual({ low: 9.5, high: 10.5 });
    expect(() => toleranceBand(row({ tolerance: 'about' }))).toThrow('not understood');
    expect(() => toleranceBand(row({ tolerance: 'span' }))).toThrow('low and high');
  });

  it('fails an unlisted miss, and a listed one that passes', () => {
    const listed = new Map([['x-1', 'a reason that is long enough']]);
    expect(() => checkRow(row({}), 10.2, new Map())).not.toThrow();
    expect(() => checkRow(row({}), 10.4, new Map())).toThrow('not listed');
    expect(() => checkRow(row({}), 10.4, listed)).not.toThrow();
    expect(() => checkRow(row({}), 10.2, listed)).toThrow('take it off');
    expect(() => checkRow(row({}), Number.NaN, new Map())).toThrow('not listed');
    expect(judge(row({}), 10.4, listed)).toMatchObject({ passes: false, fault: null });
  });

  it('reads quoted cells with commas, quotes and line ends', () => {
    expect(parseCsv('a,b\n"x, ""y""\nz",2\n\n')).toEqual([
      ['a', 'b'],
      ['x, "y"\nz', '2'],
    ]);
  });
});
