import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { keptStream } from '../../../../tests/kept-streams.ts';
import { jobsOfAll } from '../../../exchange/ageing/care-feed.ts';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { dayNumber } from '../../../record/day-number.ts';
import { keptThings, type KeptThings } from '../../../record/kept-things.ts';
import { awayView } from './away-view.ts';
import { careOfDraft, draftOfCare } from './care-draft.ts';
import { freshPiece, newNotes } from './new-draft.ts';
import { historyLines } from './piece-view.ts';
import { placeAdvice, placeLine } from './place-words.ts';
import { rawAge, rawLine, readyLine } from './ready-words.ts';
import { roundView } from './round-view.ts';
import { splitNotes } from './split-notes.ts';
import { localDayNumber } from './use-kept.ts';
import { weeksView } from './weeks-view.ts';

const words = (name: string): object => JSON.parse(readFileSync(`words/en-GB/${name}.json`, 'utf8')) as object;
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': { ageing: words('ageing') } } }));
const write = openWriter({ language: 'en-GB', units: 'metric' });
const plain = (text: string): string => text.replace(/[\u202F\u00A0]/g, ' ');
const source = 'common practice (no source)';
const care = {
  stays: [{ every: { turn: 2, weigh: 7 }, temperatureC: 12, humidityPercent: 88 }],
  tasteDays: [],
  readyDays: { from: 40, to: 60 },
  source,
};
const made = { cheese: 'tomme', madeOn: '2026-03-01', massKg: 1, rind: 'bare', treatment: 'raw', care };
type Line = readonly [string, string, (object | number)?];
const piece = (id: string, said: object, lines: readonly Line[] = []) =>
  [`piece:${id}`, keptStream(`piece:${id}`, [['2026-03-01', 'pieceMade', { ...made, ...said }], ...lines])] as const;
const place = (id: string, said: object, lines: readonly Line[] = []) =>
  [`place:${id}`, keptStream(`place:${id}`, [['2026-01-01', 'placeTold', said], ...lines])] as const;
const cave = place('cave', { name: 'Cave', kind: 'cave', order: 1, temperatureC: 12, humidityPercent: 85 });
const box = place('box', { name: 'Box', kind: 'box', order: 2, box: { lid: 'shut', towel: 'none' } }, [
  ['2026-03-02', 'placeChecked', { droplets: 'drops' }],
]);
const kept = (...more: (readonly [string, ReturnType<typeof keptStream>])[]): KeptThings =>
  keptThings(new Map([cave, box, ...more]));
const low = piece('low', { name: 'Low', place: 'place:cave', shelf: 2 });
const high = piece('high', { name: 'High', place: 'place:cave', shelf: 1 }, [['2026-03-03', 'pieceTurned']]);
const boxed = piece('boxed', { name: 'Boxed', place: 'place:box', shelf: 1 });
const day = (text: string): number => dayNumber(text);
const round = (today: string, ...more: Parameters<typeof kept>) =>
  roundView({ kept: kept(...more), today: day(today), say, write });

describe("today's round", () => {
  it('walks by place and shelf, one verb a line, and says what was missed', () => {
    const { places, open } = round('2026-03-09', low, high, boxed);
    expect(places.map(({ name, lines }) => [name, lines.map(({ piece: of, verb }) => `${of}: ${verb}`)])).toEqual([
      ['Cave', ['High: Turn', 'High: Weigh', 'Low: Turn', 'Low: Weigh']],
      ['Box', ['Boxed: Turn', 'Boxed: Weigh']],
    ]);
    expect(open).toBe(6);
    expect(places[0]?.lines.map(({ remark }) => remark)).toEqual(['missed 2 turns', '', 'missed 3 turns', '']);
  });

  it('has one tap for all that a tap can say, and leaves the scale for a hand', () => {
    expect(
      round('2026-03-09', low, high)
        .all.map(({ kind, streamId }) => `${kind} ${streamId}`)
        .sort(),
    ).toEqual(['pieceTurned piece:high', 'pieceTurned piece:low']);
  });

  it('keeps what was done today in its place, so that a tap takes it back', () => {
    const turned = piece('low', { name: 'Low', place: 'place:cave', shelf: 2 }, [['2026-03-09', 'pieceTurned']]);
    const [line, weigh] = round('2026-03-09', turned).places[0]?.lines ?? [];
    expect(line).toMatchObject({ verb: 'Turn', note: null });
    expect(line?.doneBy).toHaveLength(1);
    expect(weigh).toMatchObject({ verb: 'Weigh', doneBy: [] });
  });

  it('says when there is something again', () => {
    const fresh = piece('low', { name: 'Low', place: 'place:cave' }, [['2026-03-04', 'pieceTurned']]);
    expect(round('2026-03-04', fresh)).toMatchObject({ open: 0, next: 'Next: turn 1, Friday 6 March.' });
  });
});

describe('the strip of weeks', () => {
  it('has a row a piece, with what was done, the gap, what is to come and the window', () => {
    const gap = piece('low', { name: 'Low', place: 'place:cave' }, [
      ['2026-03-03', 'pieceTurned'],
      ['2026-03-09', 'pieceTurned'],
    ]);
    const { rows, todayColumn, weeks } = weeksView({
      kept: kept(gap),
      today: day('2026-03-09'),
      back: 7,
      ahead: 40,
      say,
      write,
    });
    expect(todayColumn).toBe(7);
    expect(weeks[0]).toMatchObject({ column: 0, label: '2 Mar' });
    const [row] = rows;
    expect(
      row?.marks.filter(({ state, job }) => state === 'done' && job === 'turn').map(({ column }) => column),
    ).toEqual([1, 7]);
    expect(row?.gaps).toMatchObject([{ from: 1, to: 7, words: 'missed 2 turns' }]);
    expect(row?.ready).toEqual({ from: 39, to: 47 });
    expect(row?.told).toContain('missed 2 turns');
    expect(row?.readyWords).toBe('Ready 10 Apr to 30 Apr, in 32 days');
  });
});

describe('a cheese in words', () => {
  const one = kept(low).pieces.get('piece:low')!;

  it('tells the raw-milk count with its day, and never that it is safe', () => {
    const age = rawAge({ piece: one, kept: kept(low), today: day('2026-03-31') })!;
    expect(age).toMatchObject({ counted: 30, left: 30, unknown: 0 });
    expect(rawLine({ age, today: day('2026-03-31'), say, write })).toBe(
      'Raw milk: the US code asks for 60 days; 30 have been counted, so not before 30 April 2026.',
    );
    expect(readyLine({ piece: one, today: day('2026-05-02'), say, write })).toBe(
      'Usually eaten 10 Apr to 30 Apr: 2 days ago',
    );
    expect(
      Object.values(words('ageing'))
        .map((part) => JSON.stringify(part))
        .join(' '),
    ).not.toMatch(/\bsafe\b/);
  });

  it('tells a box by its lid and its drops, and what to do with it', () => {
    const { places } = kept();
    expect(plain(placeLine({ place: places.get('place:box')!, say, write }))).toBe(
      'lid shut, drops, likely 93 to 100 % humidity',
    );
    expect(placeAdvice({ place: places.get('place:box')!, wanted: [88] })).toBe('open-a-finger');
    expect(plain(placeLine({ place: places.get('place:cave')!, say, write }))).toBe('12.0 °C, 85 % humidity');
  });

  it('is cut into heirs with its past, its place and its care; together no heavier than it was', () => {
    let nth = 0;
    const cut = (masses: readonly string[], count = 2) =>
      splitNotes({
        piece: one,
        count,
        masses,
        today: day('2026-04-01'),
        units: 'metric',
        say,
        newStreamId: () => `piece:part-${nth++}`,
      });
    const notes = cut(['0,48', '0.5']) ?? [];
    expect(notes.map(({ kind }) => kind)).toEqual(['pieceSplit', 'pieceMade', 'pieceMade']);
    expect(notes[1]?.body).toMatchObject({
      name: 'Low, half a',
      from: 'piece:low',
      massKg: 0.48,
      place: 'place:cave',
      shelf: 2,
      treatment: 'raw',
    });
    expect([cut(['0.6', '0.6']), cut(['x', '']), cut([], 1)]).toEqual([null, null, null]);
    const heirs = kept(
      low,
      ...notes
        .slice(1)
        .map(
          ({ streamId, body }) =>
            [streamId, keptStream(streamId, [['2026-04-01', 'pieceMade', body as object]])] as const,
        ),
    );
    expect(heirs.pieces.size).toBe(3);
    expect(historyLines({ piece: one, kept: heirs, say, write }).map((line) => plain(line.words))).toEqual([
      'put on the shelf, 1.00 kg',
    ]);
  });

  it('keeps the care that was typed, and names the field that is wrong', () => {
    const draft = draftOfCare({ care, units: 'us' });
    expect(draft.stays[0]).toMatchObject({ turn: '2', temperatureC: '53.6', brush: '' });
    const read = careOfDraft({ draft: { ...draft, taste: '30, 45' }, care, units: 'us', by: 'me' });
    expect('care' in read && read.care).toMatchObject({
      tasteDays: [30, 45],
      source: 'me',
      stays: [{ every: { turn: 2, weigh: 7 } }],
    });
    expect('care' in read && read.care.stays[0]?.temperatureC).toBeCloseTo(12, 9);
    const wrong = careOfDraft({
      draft: { ...draft, stays: [{ ...draft.stays[0]!, turn: 'often' }], readyTo: '10' },
      care,
      units: 'us',
      by: 'me',
    });
    expect('wrong' in wrong && wrong.wrong).toEqual(['0.turn', 'readyTo']);
  });

  it('goes on the shelf as several, each with its number, or as many tended as one', () => {
    let nth = 0;
    const draft = {
      ...freshPiece({ record: null, today: '2026-03-09', place: 'place:cave', units: 'metric' }),
      name: 'Disc',
      count: '3',
      mass: '0.2',
      shelf: '4',
    };
    const read = (change: object) =>
      newNotes({
        draft: { ...draft, ...change },
        record: null,
        units: 'metric',
        today: '2026-03-09',
        say,
        newStreamId: () => `piece:${nth++}`,
      });
    const each = read({});
    expect('notes' in each && each.notes.map(({ body }) => body)).toMatchObject([
      { name: 'Disc 1', shelf: 4 },
      { name: 'Disc 2', shelf: 5 },
      { name: 'Disc 3', shelf: 6 },
    ]);
    const together = read({ how: 'together' });
    expect('notes' in together && together.notes.map(({ body }) => body)).toMatchObject([{ name: 'Disc', count: 3 }]);
    const wrong = read({ name: ' ', madeOn: '2026-03-10', count: '0', shape: 'sphere' });
    expect('wrong' in wrong && wrong.wrong).toEqual(['name', 'madeOn', 'count', 'sizes']);
  });
});

describe('days away', () => {
  it('say on which days somebody else must turn it, and what moves', () => {
    const away = { from: day('2026-03-11'), to: day('2026-03-20') };
    const jobs = jobsOfAll({
      kept: kept(high),
      dayAt: localDayNumber,
      today: day('2026-03-09'),
      until: away.to + 1,
      away: [away],
    });
    const view = awayView({ jobs, kept: kept(high), say, write });
    expect(view.cannotWait).toHaveLength(1);
    expect(view.cannotWait[0]).toMatch(/^High: turn on .*Mar.*Ask somebody, or take it along\.$/);
    expect(view.told).toMatch(/before you leave|wait until 21 Mar/);
  });
});
