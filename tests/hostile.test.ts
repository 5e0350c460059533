import ICAL from 'ical.js';
import { readdirSync, readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { careFeed } from '../src/exchange/ageing/care-feed.ts';
import { copyText } from '../src/exchange/copy/copy-text.ts';
import { calendarText } from '../src/exchange/icalendar.ts';
import { parseLogFile } from '../src/exchange/log-file.ts';
import { handOutSheet } from '../src/exchange/paper/hand-out.ts';
import { el } from '../src/exchange/paper/element.ts';
import { htmlOf, paperDocument } from '../src/exchange/paper/html.ts';
import { inspectorSheet } from '../src/exchange/paper/inspector-record.ts';
import type { Told } from '../src/exchange/paper/step-words.ts';
import { studentSheet } from '../src/exchange/paper/student-sheet.ts';
import { scheduleOf } from '../src/exchange/schedule.ts';
import { csvText } from '../src/exchange/share/csv.ts';
import { makeCalendar } from '../src/exchange/share/make-calendar.ts';
import { makeCsv } from '../src/exchange/share/make-csv.ts';
import { fileName, makeFileText, readMakeFile } from '../src/exchange/share/make-file.ts';
import { recipeOf, recipeText } from '../src/exchange/share/recipe.ts';
import { recordCsv } from '../src/exchange/share/record-csv.ts';
import { batchesHead, batchRow, readingRows, readingsHead } from '../src/exchange/share/store-tables.ts';
import { shownText } from '../src/exchange/shown-text.ts';
import { bothUnits } from '../src/exchange/text/both-units.ts';
import type { Sheet } from '../src/exchange/text/telling.ts';
import { openWords, sayFrom } from '../src/exchange/words.ts';
import { openWriter } from '../src/exchange/written.ts';
import { simulate } from '../src/forecast/simulate.ts';
import { planMake } from '../src/make/planning.ts';
import { spokenMake } from '../src/make/spoken.ts';
import type { Event } from '../src/record/event.ts';
import { dayOf } from '../src/record/day-number.ts';
import { foldBatch } from '../src/record/fold.ts';
import { ALL_KINDS } from '../src/record/keeping-events.ts';
import { keptThings } from '../src/record/kept-things.ts';
import { HARMLESS_TEXTS, hostileTexts } from './hostile-texts.ts';
import { keptDairy } from './kept-dairy.ts';
import { keptStream } from './kept-streams.ts';
import { makeNamed } from './makes.ts';

/** Whatever somebody writes where a name, a note or a lot code is asked for stays words in everything that is handed on. */
const NOW = Date.UTC(2026, 10, 11, 9);
const filesOf = (language: string): Record<string, object> =>
  Object.fromEntries(readdirSync(`words/${language}`).map((file) => [file.replace('.json', ''), JSON.parse(readFileSync(`words/${language}/${file}`, 'utf8')) as object])); // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': filesOf('en-GB') } }));
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
const told: Told = { say, write, both: bothUnits('metric'), isInBoth: true };
const ball = makeNamed('stretched-ball');
const answers = { milk: { volumeL: 10 }, pot: { volumeL: 12 } } as const;
const forecast = simulate({ plan: planMake({ make: ball, answers }), seed: 1, members: 40 });

const hostile = hostileTexts();
const everyText = [...hostile, ...HARMLESS_TEXTS];
/** What no eye sees and some readers stop at, and what turns the words after it round. */
const UNSEEN = /(?![\t\n\r])\p{Cc}|[\u202A-\u202E\u2066-\u2069]/u;

/** Gives one text after the other, begun at a place of the list: a document with more words than there are texts says them all. */
function texts(start: number): () => string {
  let next = start;
  return () => everyText[next++ % everyText.length] ?? '';
}
/** Each beginning puts other texts into the same places. */
const BEGINNINGS = [0, 29, 58, 71];
const plain = (): string => 'Ash';

/** One event of every kind that a make has. */
const batch = keptDairy().filter(({ streamId, kind }, index, all) => streamId === 'batch:ash' && all.findIndex((one) => one.streamId === streamId && one.kind === kind) === index); // prettier-ignore

/** A batch whose words, names and notes and lot code alike, are these. */
function batchSaying(next: () => string): Event[] {
  const WORDS = /^(name|lotCode|text|words|note|said|because|lot|person|ingredient|label|how)$/;
  const spoken = (value: unknown): unknown =>
    Array.isArray(value) ? value.map(spoken) : typeof value === 'object' && value !== null ? Object.fromEntries(Object.entries(value).map(([key, one]) => [key, WORDS.test(key) && typeof one === 'string' ? next() : spoken(one)])) : value; // prettier-ignore
  return batch.map((event) => ({ ...event, person: next(), body: spoken(event.body) as Event['body'] }));
}
function sheetSaying(next: () => string): Sheet {
  const plan = planMake({ make: spokenMake(ball, next), answers });
  const schedule = scheduleOf({ plan, forecast, wish: { mode: 'start-at', at: NOW + 60_000 }, now: NOW });
  if (schedule === null) throw new Error('such a make ends');
  return { plan, forecast, schedule, now: NOW, spoonDelayMin: null, say, both: told.both, write, clock: write.clock, day: write.day, wayToAnswer: (field) => field, width: 96 }; // prettier-ignore
}

describe('in a table', () => {
  const rowsOf = (csv: string): string[][] => Papa.parse<string[]>(csv, { delimiter: ',', skipEmptyLines: true }).data;
  /** A reader that parts cells at other signs and knows no quotes. */
  const careless = (csv: string): string[] => csv.split(/[\r\n;|\t]+/).map((cell) => cell.trim());
  const RUNS = /^\s*[=+@\uFF1D\uFF0B\uFF0D\uFF20]|^\s*-(?!\d+(\.\d+)?$)/u;

  it('no text is worked out, makes a cell or a row, or is lost', () => {
    for (const text of everyText) {
      const csv = csvText([['before', text, 'after']]);
      const [[before, cell = '', after] = [], ...more] = rowsOf(csv);
      expect([before, after, more], text).toEqual(['before', 'after', []]);
      expect(cell.replaceAll("'", ''), text).toBe(shownText(text).replaceAll("'", ''));
      expect(cell, text).not.toMatch(RUNS);
      expect(careless(csv).filter((one) => /^[=@]/.test(one)), text).toEqual([]);
    }
  }); // prettier-ignore

  it('no record, list of batches or plan has more rows or cells for what it says', () => {
    expect(batch.length).toBeGreaterThan(10);
    const tables = (next: () => string): string[] => {
      const record = foldBatch(batchSaying(next));
      return [recordCsv(record), batchesHead() + batchRow(record), readingsHead() + readingRows(record), makeCsv(sheetSaying(next).plan)]; // prettier-ignore
    };
    const usual = tables(plain).map((csv) => rowsOf(csv).map((row) => row.length));
    for (const start of BEGINNINGS) {
      for (const [index, csv] of tables(texts(start)).entries()) {
        const rows = rowsOf(csv);
        expect(rows.map((row) => row.length)).toEqual(usual[index]);
        expect(rows.flat().filter((cell) => RUNS.test(cell))).toEqual([]);
        expect(csv).not.toMatch(UNSEEN);
      }
    }
  });
});

describe('in a calendar', () => {
  const KNOWN = /^(BEGIN|END|VERSION|PRODID|CALSCALE|X-WR-CALNAME|REFRESH-INTERVAL|UID|DTSTAMP|DTSTART|DTEND|SUMMARY|DESCRIPTION|ACTION|TRIGGER|TRANSP)[:;]/; // prettier-ignore
  const linesOf = (text: string): string[] => text.replaceAll('\r\n ', '').split('\r\n').slice(0, -1);
  const eventsOf = (text: string): ICAL.Event[] =>
    new ICAL.Component(ICAL.parse(text) as unknown[]).getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));

  it('no text begins a line, an event or a property of its own, and all of it comes through', () => {
    for (const text of everyText) {
      const moment = { id: 'x', at: NOW, minutes: 5, title: text, note: text };
      const day = { id: 'y', day: '2026-12-01', ringHour: 8, title: text, note: text };
      const calendar = calendarText({ name: text, madeAt: NOW, moments: [moment], days: [day] });
      // Half a pair of surrogates cannot be written down; the sign for what is missing stands in its place.
      const shown = Buffer.from(shownText(text).replaceAll(/\r\n|\r/g, '\n')).toString();
      const events = eventsOf(Buffer.from(calendar).toString());
      expect(events.map(({ summary }) => summary)).toEqual([shown, shown]);
      for (const line of linesOf(calendar)) expect(line, text).toMatch(KNOWN);
      expect(calendar, text).not.toMatch(/(?![\t\r\n])\p{Cc}|(?<!\r)\n|\r(?!\n)/u);
    }
  });

  it('nor do the names of makes, of cheeses in the ageing room and of its places', () => {
    const calendarOf = (next: () => string): string => makeCalendar({ sheet: sheetSaying(next), told, id: 'x', madeAt: NOW }); // prettier-ignore
    const care = { stays: [{ every: { turn: 30 } }], tasteDays: [10], source: 'common practice (no source)' };
    const streams = new Map(hostile.flatMap((text, index) => [
      [`piece:${index}`, keptStream(`piece:${index}`, [['2026-03-01', 'pieceMade', { name: text, cheese: text, madeOn: '2026-03-01', rind: 'bare', place: `place:${index}`, care }]])] as const,
      [`place:${index}`, keptStream(`place:${index}`, [['2026-01-01', 'placeTold', { name: text, kind: 'cave' }]])] as const,
    ])); // prettier-ignore
    const feed = careFeed({ kept: keptThings(streams), dayAt: (at) => dayOf({ at, utcOffsetMin: 0 }), now: Date.UTC(2026, 2, 2), say }); // prettier-ignore
    expect(eventsOf(feed).length).toBeGreaterThan(2);
    const usual = eventsOf(calendarOf(plain)).length;
    const calendars = BEGINNINGS.map((start) => calendarOf(texts(start)));
    for (const calendar of calendars) expect(eventsOf(calendar)).toHaveLength(usual);
    for (const line of [feed, ...calendars].flatMap(linesOf)) expect(line).toMatch(KNOWN);
  });
});

describe('on paper', () => {
  function pageSaying(next: () => string): string {
    const { plan } = sheetSaying(next);
    const sheets = [
      handOutSheet({ plan, forecast, notes: { batchCode: next() }, told }),
      studentSheet({ plan, pot: { name: next(), lotCode: next(), day: next() }, lastStepId: plan.steps.at(-1)?.id, told }),
      inspectorSheet({ record: foldBatch(batchSaying(next)), plan, lines: [], plannedAt: new Map(), lotNames: new Map(), printedAt: NOW, told }),
    ]; // prettier-ignore
    return paperDocument({ sheets, language: 'en-GB' });
  }
  const TAG = /<(\/?[a-z][a-z0-9]*|!doctype html)((?: [a-zA-Z-]+="[^"<>]*")*)>/g;
  /** The page without its words: every element and the names of its attributes, in order. */
  const skeleton = (html: string): string[] => [...html.matchAll(TAG)].map(([, tag = '', attributes = '']) => `${tag}${attributes.replaceAll(/="[^"]*"/g, '')}`); // prettier-ignore

  it('no text becomes an element or leaves its attribute', () => {
    for (const text of everyText) {
      const html = htmlOf(el('p', { class: text, title: text }, text));
      expect(skeleton(html), text).toEqual(['p class title', '/p']);
      expect(html.replaceAll(TAG, ''), text).not.toMatch(/[<>]/);
      expect(html, text).not.toMatch(UNSEEN);
    }
  });

  it('no sheet has more elements for what it says, and none ends its style', () => {
    const usual = skeleton(pageSaying(plain));
    expect(usual.length).toBeGreaterThan(300);
    for (const start of BEGINNINGS) {
      const page = pageSaying(texts(start));
      expect(skeleton(page)).toEqual(usual);
      const [, style = ''] = /<style>([\s\S]*?)<\/style>/.exec(page) ?? [];
      expect(page.replace(style, '').replaceAll(TAG, '')).not.toMatch(/[<>]/);
    }
  });
});

describe('as JSON', () => {
  it('a recipe keeps its shape, ends no element around it, and says the words', () => {
    const shape = (value: unknown): unknown => Array.isArray(value) ? value.map(shape) : typeof value === 'object' && value !== null ? Object.entries(value).map(([key, one]) => [key, shape(one)]) : typeof value; // prettier-ignore
    const textOf = (next: () => string, by: string): string => recipeText(recipeOf({ sheet: sheetSaying(next), told, language: 'en-GB', author: by, license: by })); // prettier-ignore
    const usual = shape(JSON.parse(textOf(plain, 'Ash')));
    for (const start of BEGINNINGS) {
      const by = texts(start)();
      const written = textOf(texts(start), by);
      const read = JSON.parse(written) as { readonly name: string; readonly author: { readonly name: string } };
      expect([read.name, read.author.name]).toEqual([by, by]);
      expect(shape(read)).toEqual(usual);
      expect(written).not.toMatch(/[<\u2028\u2029]/);
    }
  });

  it('a make comes back as it was, whatever it says', () => {
    for (const start of BEGINNINGS) {
      const next = texts(start);
      // Short words have a limit of their own.
      const make = spokenMake(ball, (said) => (said.length > 40 ? next() : said));
      expect(readMakeFile(makeFileText(make))).toEqual({ ...make, $schema: 'make.schema.json' });
    }
  });

  it('a copy has a line an event whichever reader parts them, and gives back every word', () => {
    const [event] = batch;
    if (event === undefined) throw new Error('the example has events');
    const notes = everyText.map((text, index) => ({ ...event, id: `note-${index}`, kind: 'noted', person: text, body: { text } })); // prettier-ignore
    const events = [...batchSaying(texts(0)), ...notes];
    const written = copyText(new Map([['batch:ash', events]]));
    expect(written.split(/\r\n|[\n\v\f\r\u0085\u2028\u2029]/)).toHaveLength(events.length + 3);
    expect(written).not.toMatch(UNSEEN);
    expect(parseLogFile(written, ALL_KINDS)).toEqual(events);
  });
});

describe('in names and sentences', () => {
  it('no word makes a name of a file that leaves its folder', () => {
    for (const text of everyText) {
      const name = fileName('make', text, 'x.json');
      expect(name, text).toMatch(/^make-[a-z0-9.-]*json$/);
      expect(name, text).not.toMatch(/[/\\]/);
    }
  });

  it('no word is taken for a place of the catalogue', () => {
    for (const text of everyText) {
      expect(say('leaving:restore.aside', { aside: text })).toBe(`What was there before is kept as ${text}.`);
    }
  });
});
