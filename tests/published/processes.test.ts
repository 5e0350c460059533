import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseCsv, readPublished } from './rows.ts';
import { FIGURES, MAKES } from './values/processes.ts';

const rows = readPublished('processes.csv');
const [header = [], ...cells] = parseCsv(readFileSync('published/processes.csv', 'utf8'));
const asWritten = cells.map((row) => Object.fromEntries(header.map((name, i) => [name, row[i] ?? ''])));

/** Makes of which no table of the trade says how they are made. */
const UNPUBLISHED: ReadonlySet<string> = new Set(['yoghurt']);
/** Rows that leave a make of their family out, and why. */
const LEFT_OUT: ReadonlyMap<string, string> = new Map([
  [
    'process-F8-moisture.cream-cheese',
    'its cream makes it another cheese: the published moistures are of quark and goat curd',
  ],
  ['process-F8-yield.cream-cheese', 'its cream is weighed with it'],
  ['process-F10-acid-dose.heat-acid-white', 'vinegar or lemon juice, where the published grams are of citric acid'],
]);

describe('the published ranges of making', () => {
  it('stand for every family of the trade, a row a family and quantity', () => {
    const families = new Set(asWritten.map(({ family }) => family));
    expect(families).toEqual(new Set(Array.from({ length: 21 }, (_, i) => `F${i + 1}`)));
    const pairs = asWritten.map(({ family, quantity }) => `${family} ${quantity}`);
    expect(new Set(pairs).size).toBe(pairs.length);
    for (const { quantity = '' } of asWritten) expect(Object.keys(FIGURES)).toContain(quantity);
  });

  it('are asked of every make that Vatside brings', () => {
    const asked = new Set(rows.map(({ columns }) => columns['make']));
    for (const id of MAKES.keys()) expect(asked.has(id) || UNPUBLISHED.has(id), id).toBe(true);
    for (const id of asked) expect(MAKES.has(id ?? ''), id).toBe(true);
  });

  it('leave out no figure of a make whose family has the row, but those with a reason', () => {
    for (const { family = '', quantity = '', id = '' } of asWritten) {
      const ofFamily = rows.filter(({ columns }) => columns['family'] === family);
      const makes = new Set(ofFamily.map(({ columns }) => columns['make'] ?? ''));
      for (const name of makes) {
        const make = MAKES.get(name);
        if (make === undefined || FIGURES[quantity]?.(make) === null) continue;
        const isAsked = rows.some((row) => row.id === `${id}.${name}`);
        expect(isAsked || LEFT_OUT.has(`${id}.${name}`), `${id}.${name}`).toBe(true);
      }
    }
  });

  it('say where each comes from, and which are common practice or from memory', () => {
    for (const { id = '', source = '' } of asWritten) {
      expect(source, id).toMatch(/seen|from memory|common practice \(no source\)|curd notes/);
    }
  });
});
