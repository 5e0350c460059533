import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bookPages, openBook } from '../src/exchange/open-book.ts';
import { planMake } from '../src/make/planning.ts';
import { makeNamed } from './makes.ts';
import { saidInCode } from './said-in-code.ts';

/** Sums and makes say what does not fit and what would do in UK English; the book says it in Spanish. */
const folder = 'words/es/sentences/';
const pages = bookPages(Object.fromEntries(readdirSync(folder).map((file) => [file, JSON.parse(readFileSync(folder + file, 'utf8')) as unknown]))); // prettier-ignore
const book = openBook({ language: 'es', ...pages });
const rooms = ['numbers', 'science', 'make', 'record', 'forecast', 'exchange', 'doors/web'].map(
  (room) => `src/${room}`,
);

/** Names of fields and places are no words: `potKg: {0}, {1}`. */
const wordless = (text: string): boolean => !/\p{L}{3}/u.test(text.replaceAll(/\{\d\}|[\w.]+(?=: )/gu, ''));

describe('what sums and plans say', () => {
  it('stands in the Spanish book, down to the last remedy', () => {
    const known = new Set(Object.keys(pages.sentences).map((text) => text.replaceAll('#', '')));
    const said = saidInCode(rooms).filter(({ text }) => text.includes(' ') && !wordless(text));
    // A share of a packet is put together of two that stand in the book.
    const missing = said.filter(({ text }) => !known.has(text) && text !== '{0} {1} and {2}');
    expect(said.length).toBeGreaterThan(280);
    expect(missing).toEqual([]);
  });

  it('is told with its figures and names put in, and a decimal comma', () => {
    expect(book.tell('Fresh milk reads 6.55 to 6.8.')).toBe('La leche fresca marca de 6,55 a 6,8.');
    expect(book.tell('0.5 to 400 L')).toBe('0,5 a 400 L');
    expect(book.tell('1 packet and a little under a quarter of a packet')).toBe('1 sobre y algo menos de un cuarto de sobre'); // prettier-ignore
    expect(book.tell('about 3 times 1/4 tsp')).toBe('cerca de 3 veces 1/4 cdta');
    expect(book.tell('Nobody has written this sentence.')).toBe('Nobody has written this sentence.');
  });

  it('leaves no English in the amounts and remarks of a plan', () => {
    const plan = planMake({ make: makeNamed('stretched-ball'), answers: { milk: { volumeL: 12, homogenised: true }, pot: { volumeL: 12.5 }, calcium: { has: false }, culture: { measuredBy: 'spoon' } } }); // prettier-ignore
    const { amounts, remarks = [] } = book.plan(plan);
    const said = [...amounts.flatMap(({ kitchen, spoon }) => [kitchen?.words, spoon?.words]), ...remarks.flatMap(({ because, instead }) => [because, instead])]; // prettier-ignore
    const told = said.filter((text) => text !== undefined);
    expect(told.length).toBeGreaterThan(6);
    expect(told.filter((text) => /\b(the|of|about|and|packet|drops|milk)\b/.test(text))).toEqual([]);
  });
});
