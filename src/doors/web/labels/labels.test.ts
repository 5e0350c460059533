import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { parseMake } from '../../../make/make.ts';
import { planMake } from '../../../make/planning.ts';
import type { Answers } from '../../../make/setup.ts';
import { foldBatch } from '../../../record/fold.ts';
import { demoEvents, parseDemo } from '../../../exchange/demo.ts';
import { lotCodeFor } from '../plan/lot-code.ts';
import { cutOf, gaugeEdges, gaugeHref } from '../print/gauge-view.ts';
import type { Telling } from '../vat/said.ts';
import { labelIngredients } from './label-ingredients.ts';
import { firstPile, pileOf, pileProblems } from './label-pile.ts';
import { labelPages, PAPERS, placesOn, STOCKS } from './label-stock.ts';
import { customaryDay, firstChoices, isNoted, labelBody, labelProblems, labelView, spokenLot, type LabelChoices } from './label-view.ts'; // prettier-ignore

const read = (path: string): object => JSON.parse(readFileSync(path, 'utf8')) as object;
const filesOf = (language: string): Record<string, object> => Object.fromEntries(readdirSync(`words/${language}`).map((file) => [file.replace('.json', ''), read(`words/${language}/${file}`)])); // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': filesOf('en-GB') } }));
const write = openWriter({ language: 'en-GB', units: 'metric' });
const makes = ['ball', 'string'].map((name) => parseMake(read(`makes/stretched-${name}.json`)));
const ball = makes[0] ?? parseMake({});
const events = demoEvents({ demo: parseDemo(read('demo/larkenshaw.json')), makes, nowAt: Date.UTC(2026, 10, 25, 11) });
const record = foldBatch(events.filter(({ streamId }) => streamId === 'batch:demo-ash'));
const planOf = (milk: Partial<Answers['milk']> = {}, calcium = true) => planMake({ make: ball, answers: { ...(record.answers ?? { milk: { volumeL: 10 } }), milk: { volumeL: 10, ...milk }, calcium: { has: calcium } } }); // prettier-ignore
const plan = planOf({ treatment: 'pasteurised' });
const telling: Telling = { say, write, zeroAt: record.zeroAt };
const choices: LabelChoices = { dating: 'useBy', day: '2026-11-17', netG: '' };
const view = (of: Partial<Parameters<typeof labelView>[0]> = {}) =>
  labelView({ record, plan, choices, telling, ...of });
const text = (parts: readonly { readonly text: string }[]): string => parts.map((part) => part.text).join('');

describe('a label', () => {
  it('names the cheese, its lot, its days, its keeping and what is in it by weight', () => {
    expect(view()).toMatchObject({ name: 'Stretched ball', lot: 'LK-1112-ASH', made: '12 November 2026', until: { name: 'Use by', day: '17 November 2026' }, keep: 'Keep at 4\u202F°C or colder' }); // prettier-ignore
    expect(text(view().ingredients)).toBe('Ingredients: pasteurised cow’s milk, salt, rennet, calcium chloride, starter culture.'); // prettier-ignore
    expect(labelIngredients(planOf({}, false))).not.toContain('calcium');
  });

  it('names every thing that a make puts in, whatever the make: acid by its name, whey where it is made of whey', () => {
    for (const file of readdirSync('makes')) {
      const make = parseMake(read(`makes/${file}`));
      const made = planMake({ make, answers: { milk: { volumeL: 30 } } });
      const named = labelIngredients(made);
      const { acid, colour, lipase, ripeningCulture, culture, cream, milk } = make.doses;
      const first = make.milk.fill === 'whey' ? 'whey' : 'milk';
      expect(named[0], file).toBe(first);
      const must = [acid === undefined ? [] : [`acid-${acid.kind}`], colour === undefined ? [] : ['colour'], lipase === undefined ? [] : ['lipase'], ripeningCulture === undefined ? [] : ['ripening-culture'], culture === undefined ? [] : ['culture'], cream === undefined ? [] : ['cream'], milk === undefined ? [] : ['milk']].flat(); // prettier-ignore
      expect(named, file).toEqual(expect.arrayContaining(must));
      expect(text(view({ plan: made }).ingredients), file).not.toMatch(/labels:|undefined/);
      expect(
        view({ plan: made }).ingredients.some(({ isAllergen }) => isAllergen),
        file,
      ).toBe(true);
    }
    const quick = planMake({ make: parseMake(read('makes/quick-stretched.json')), answers: { milk: { volumeL: 2 } } });
    expect(text(view({ plan: quick }).ingredients)).toBe('Ingredients: pasteurised cow’s milk, citric acid, salt, rennet.'); // prettier-ignore
  });

  it('sets milk apart, wherever it stands', () => {
    expect(view().ingredients.filter(({ isAllergen }) => isAllergen)).toEqual([{ text: 'milk', isAllergen: true }]);
    expect(view().contains.filter(({ isAllergen }) => isAllergen)).toHaveLength(1);
  });

  it('says raw milk where the milk was raw, and only there', () => {
    expect(view().raw).toBeNull();
    const raw = view({ plan: planOf({ treatment: 'raw' }) });
    expect(raw.raw).toBe('Made with raw milk.');
    expect(text(raw.ingredients)).toContain('raw cow’s milk');
  });

  it('leaves a blank for what nobody said, never a zero', () => {
    expect(view().netWeight).toBeNull();
    expect(view({ choices: { ...choices, netG: '0' } }).netWeight).toBeNull();
    expect(view({ choices: { ...choices, day: '' } }).until.day).toBeNull();
    expect(view({ choices: { ...choices, dating: 'byHand' } }).until).toEqual({ name: 'Date', day: null });
    expect(JSON.stringify(view())).not.toMatch(/undefined|NaN|labels:/);
  });

  it('carries the net weight that was weighed, in ounces too for those who buy in them', () => {
    const us: Telling = { ...telling, write: openWriter({ language: 'en-US', units: 'us' }) };
    expect(view({ choices: { ...choices, netG: '128' } }).netWeight).toBe('128\u202Fg');
    expect(view({ choices: { ...choices, netG: '1250' } }).netWeight).toBe('1.25\u202Fkg');
    // 128 g over 28.349523125 g, the international avoirdupois ounce.
    expect(view({ choices: { ...choices, netG: '128' }, telling: us }).netWeight).toBe('4.5\u202Foz (128\u202Fg)');
  });

  it('begins with the label as it was noted, else with the customary day, and takes no day before the make', () => {
    expect(firstChoices({ record, plan })).toMatchObject({ dating: 'useBy', day: '2026-11-17' });
    expect(firstChoices({ record: { ...record, labelled: [] }, plan })).toMatchObject({ dating: 'useBy', day: customaryDay({ record, plan }) }); // prettier-ignore
    const wrong = (of: Partial<LabelChoices>) => labelProblems({ choices: { ...choices, ...of }, record, say, write });
    expect(wrong({})).toEqual({});
    expect(wrong({ day: '2026-11-11' }).day).toContain('12 November 2026');
    expect(wrong({ netG: 'a lot' }).netG).toContain('a lot');
  });

  it('is noted in the record once, with the date as it is called', () => {
    expect(isNoted({ record, plan, choices })).toBe(true);
    const best: LabelChoices = { ...choices, dating: 'bestBefore', day: '2026-11-19' };
    expect(isNoted({ record, plan, choices: best })).toBe(false);
    expect(labelBody({ record, plan, choices: best })).toEqual({ name: 'Stretched ball', lotCode: 'LK-1112-ASH', packedOn: '2026-11-12', bestBefore: '2026-11-19', keptAtC: 4 }); // prettier-ignore
  });
});

describe('label sheets', () => {
  it('hold 24 and 21 on A4, 21 on Letter, all inside the paper and none on another', () => {
    const counts = (['70x37', '63x38'] as const).flatMap((stock) => (['A4', 'Letter'] as const).map((paper) => {
      const places = placesOn({ stock, paper });
      const { widthMm, heightMm } = STOCKS[stock];
      for (const [index, place] of places.entries()) {
        expect(place.leftMm).toBeGreaterThanOrEqual(0);
        expect(place.leftMm + widthMm).toBeLessThanOrEqual(PAPERS[paper].widthMm + 1e-9);
        expect(place.topMm + heightMm).toBeLessThanOrEqual(PAPERS[paper].heightMm);
        for (const other of places.slice(index + 1)) expect(Math.abs(other.leftMm - place.leftMm) >= widthMm - 1e-9 || Math.abs(other.topMm - place.topMm) >= heightMm - 1e-9).toBe(true); // prettier-ignore
      }
      return places.length;
    })); // prettier-ignore
    expect(counts).toEqual([24, 21, 21, 21]);
  });

  it('begin where labels are left on the sheet, and put the check bar behind the last one', () => {
    const pages = labelPages({ count: 12, used: 3, perPage: 24 });
    expect(pages).toHaveLength(1);
    expect(pages[0]?.map(({ kind }) => kind).slice(2, 17)).toEqual(['empty', ...Array.from({ length: 12 }, () => 'label'), 'check', 'empty']); // prettier-ignore
    expect(labelPages({ count: 30, used: 0, perPage: 24 }).flat().filter(({ kind }) => kind === 'label')).toHaveLength(30); // prettier-ignore
    expect(
      labelPages({ count: 24, used: 0, perPage: 24 })
        .flat()
        .every(({ kind }) => kind === 'label'),
    ).toBe(true);
  });

  it('take only whole counts', () => {
    const pile = firstPile('en-US');
    expect(pile.paper).toBe('Letter');
    expect(pileProblems({ pile, perPage: 21, say })).toEqual({});
    expect(pileProblems({ pile: { ...pile, count: '0', used: '21' }, perPage: 21, say })).toEqual({ count: '“0” will not do: a whole number from 1 to 480.', used: '“21” will not do: a whole number from 0 to 20.' }); // prettier-ignore
    expect(pileOf({ pile: { ...pile, count: '7' }, perPage: 21 })).toEqual({ count: 7, used: 0 });
  });
});

describe('the lot code', () => {
  it('has no letter that is taken for a figure, and changes its letter with any one slip', () => {
    const letterOf = (day: string): string => lotCodeFor({ day, taken: [] }).at(-1) ?? '';
    const letters = new Set<string>();
    for (let day = 1; day <= 28; day++) for (let month = 1; month <= 12; month++) {
      const two = (value: number): string => String(value).padStart(2, '0');
      const iso = `2026-${two(month)}-${two(day)}`;
      const letter = letterOf(iso);
      letters.add(letter);
      expect(letter).toMatch(/[ACDEFGHJKMNPQRTUWXY]/);
      for (const at of [2, 3, 5, 6, 8, 9]) {
        for (let figure = 0; figure <= 9; figure++) {
          const slip = `${iso.slice(0, at)}${figure}${iso.slice(at + 1)}`;
          if (slip !== iso) expect(letterOf(slip), `${iso} and ${slip}`).not.toBe(letter);
        }
      }
      for (const [a, b] of [[2, 3], [3, 5], [5, 6], [6, 8], [8, 9]] as const) {
        const figures = Array.from(iso);
        [figures[a], figures[b]] = [figures[b] ?? '', figures[a] ?? ''];
        const slip = figures.join('');
        if (slip !== iso) expect(letterOf(slip), `${iso} and ${slip}`).not.toBe(letter);
      }
    }
    expect(letters.size).toBe(19);
  }); // prettier-ignore

  it('is said sign by sign', () => {
    expect(spokenLot('261125-1K')).toBe('2 6 1 1 2 5 1 K');
  });
});

describe('the curd gauge', () => {
  it('has the usual squares, and the cut of this make where it is another', () => {
    expect(gaugeHref(plan)).toBe('/gauge?cut=12');
    expect(cutOf('cut=12')).toBe(12);
    expect(['', 'cut=nonsense', 'cut=-3', 'cut=900'].map(cutOf)).toEqual([null, null, null, null]);
    expect(gaugeEdges(null)).toEqual([6, 10, 13, 19, 25]);
    expect(gaugeEdges(12)).toEqual([6, 10, 12, 13, 19, 25]);
    expect(gaugeEdges(13)).toEqual([6, 10, 13, 19, 25]);
    expect(gaugeEdges(900)).toEqual([6, 10, 13, 19, 25]);
  });
});
