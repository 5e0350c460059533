import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keptStream } from '../../tests/kept-streams.ts';
import { careJobs, datedStays, missedRounds, type Away, type PlannedJob } from './care-calendar.ts';
import type { Care } from './care-plan.ts';
import { dayNumber, dayOf, dayText } from './day-number.ts';
import { foldPiece, type PieceRecord } from './piece-record.ts';

const dayAt = (at: number): number => dayOf({ at, utcOffsetMin: 0 });
type Line = readonly [string, string, (object | number)?];
const source = 'common practice (no source)';
const piece = (care: Omit<Care, 'source'>, lines: readonly Line[] = []): PieceRecord =>
  foldPiece(keptStream('piece:one', [['2026-03-01', 'pieceMade', { name: 'W', cheese: 'w', madeOn: '2026-03-01', rind: 'bare', place: 'place:cave', care: { ...care, source } }], ...lines])); // prettier-ignore
const ask = (of: PieceRecord, today: string, until: string, away: readonly (readonly [string, string])[] = []): readonly PlannedJob[] =>
  careJobs({ piece: of, dayAt, today: dayNumber(today), until: dayNumber(until), away: away.map(([from, to]): Away => ({ from: dayNumber(from), to: dayNumber(to) })) }); // prettier-ignore
const told = (jobs: readonly PlannedJob[]): string[] => jobs.map(({ job, day }) => `${job} ${dayText(day)}`);

const everySecondDay = { stays: [{ every: { turn: 2 } }], tasteDays: [] };

describe('the calendar of a wheel', () => {
  it('turns it every second day from its making on', () => {
    expect(told(ask(piece(everySecondDay), '2026-03-01', '2026-03-07'))).toEqual(['turn 2026-03-03', 'turn 2026-03-05', 'turn 2026-03-07']); // prettier-ignore
  });

  it('works no further than it is asked, also where somebody is away for thousands of years by a slip', () => {
    const began = performance.now();
    const daily = piece({ stays: [{ every: { turn: 1, brush: 0.5, wash: 1 } }], tasteDays: [] });
    const jobs = ask(daily, '2026-03-01', '2026-05-30', [['2026-03-04', '9999-12-31']]);
    expect(jobs.length).toBeLessThan(300);
    expect(performance.now() - began).toBeLessThan(500);
    expect(told(jobs)).toContain('turn 2026-03-02');
  });

  it('counts on from the day it was really turned, early or late', () => {
    const turned = piece(everySecondDay, [['2026-03-02', 'pieceTurned']]);
    expect(told(ask(turned, '2026-03-02', '2026-03-06'))).toEqual(['turn 2026-03-04', 'turn 2026-03-06']);
  });

  it('asks once after missed days, says how many rounds were missed, and doubles nothing', () => {
    const jobs = ask(piece(everySecondDay, [['2026-03-03', 'pieceTurned']]), '2026-03-11', '2026-03-14');
    expect(told(jobs)).toEqual(['turn 2026-03-11', 'turn 2026-03-13']);
    expect(jobs.map(({ missed }) => missed)).toEqual([3, 0]);
    expect(jobs[0]?.wasDue).toBe(dayNumber('2026-03-05'));
    const back = piece(everySecondDay, [
      ['2026-03-03', 'pieceTurned'],
      ['2026-03-11', 'pieceTurned'],
    ]);
    expect(missedRounds({ piece: back, dayAt, today: dayNumber('2026-03-11') })).toEqual([{ job: 'turn', from: dayNumber('2026-03-03'), to: dayNumber('2026-03-11'), missed: 3 }]); // prettier-ignore
    expect(told(ask(back, '2026-03-11', '2026-03-13'))).toEqual(['turn 2026-03-13']);
  });

  it('changes its rhythm with the stay, and the day of the next one with the move that was made late', () => {
    const care = { stays: [{ days: 5, every: { turn: 1 } }, { once: ['move' as const], every: { turn: 7 } }], tasteDays: [] }; // prettier-ignore
    const young = ask(piece(care), '2026-03-01', '2026-03-14');
    expect(told(young.filter(({ job }) => job === 'move'))).toEqual(['move 2026-03-06']);
    expect(told(young.filter(({ job }) => job === 'turn')).at(-1)).toBe('turn 2026-03-12');
    const late = piece(care, [['2026-03-05', 'pieceTurned'], ['2026-03-09', 'pieceMoved', { place: 'place:fridge' }]]); // prettier-ignore
    expect(datedStays({ piece: late, dayAt, today: dayNumber('2026-03-09') })[1]).toMatchObject({ from: dayNumber('2026-03-09'), open: [] }); // prettier-ignore
    const waiting = ask(piece(care, [['2026-03-08', 'pieceTurned']]), '2026-03-08', '2026-03-08');
    expect(waiting.map(({ job, wasDue }) => [job, dayText(wasDue)])).toEqual([['move', '2026-03-08']]);
  });

  it('asks for a taste once, and for the last of those that were left out', () => {
    const care = { stays: [{ every: {} }], tasteDays: [10, 20, 60] };
    expect(told(ask(piece(care), '2026-03-25', '2026-05-30'))).toEqual(['taste 2026-03-25', 'taste 2026-04-30']);
  });

  it('asks for nothing of a cheese that is eaten', () => {
    expect(ask(piece(everySecondDay, [['2026-03-02', 'pieceEnded', { way: 'eaten' }]]), '2026-03-03', '2026-04-01')).toEqual([]); // prettier-ignore
  });
});

describe('days away', () => {
  const weekly = { stays: [{ every: { turn: 7 } }], tasteDays: [] };

  it('put what can wait on the evening before and the day after', () => {
    const jobs = ask(piece(weekly, [['2026-03-04', 'pieceTurned']]), '2026-03-04', '2026-03-25', [['2026-03-10', '2026-03-16']]); // prettier-ignore
    expect(jobs.map(({ day, moved, cannotWait }) => [dayText(day), moved, cannotWait])).toEqual([['2026-03-09', 'before', false], ['2026-03-17', 'after', false], ['2026-03-24', null, false]]); // prettier-ignore
  });

  it('let a daily turn wait over a weekend, and name somebody else for a week', () => {
    const daily = piece({ stays: [{ every: { turn: 1 } }], tasteDays: [] }, [['2026-03-05', 'pieceTurned']]);
    const weekend = ask(daily, '2026-03-05', '2026-03-09', [['2026-03-07', '2026-03-08']]);
    expect(weekend.some(({ cannotWait }) => cannotWait)).toBe(false);
    expect(told(weekend)).toEqual(['turn 2026-03-06', 'turn 2026-03-09']);
    const week = ask(daily, '2026-03-05', '2026-03-14', [['2026-03-07', '2026-03-13']]);
    expect(week.filter(({ cannotWait }) => cannotWait).map(({ day }) => dayText(day))).toEqual(['2026-03-08', '2026-03-10', '2026-03-12']); // prettier-ignore
  });

  it('put a taste after them, and a move on the side where the cheese suffers least', () => {
    const care = {
      stays: [
        { days: 12, every: {} },
        { once: ['move' as const], every: {} },
      ],
      tasteDays: [14],
    };
    const jobs = ask(piece(care), '2026-03-08', '2026-03-30', [['2026-03-12', '2026-03-19']]);
    expect(jobs.map(({ job, day, moved }) => [job, dayText(day), moved])).toEqual([['move', '2026-03-11', 'before'], ['taste', '2026-03-20', 'after']]); // prettier-ignore
  });

  it('never leave two of one job on a day, a job before today, or a patient rhythm without its round', () => {
    const spans = fc.record({ every: fc.integer({ min: 1, max: 14 }), start: fc.integer({ min: 1, max: 30 }), long: fc.integer({ min: 1, max: 25 }), late: fc.integer({ min: 0, max: 20 }) }); // prettier-ignore
    fc.assert(
      fc.property(spans, ({ every, start, long, late }) => {
        const first = dayNumber('2026-03-01');
        const today = first + late;
        const away = { from: today + start, to: today + start + long - 1 };
        const jobs = careJobs({ piece: piece({ stays: [{ every: { turn: every } }], tasteDays: [] }), dayAt, today, until: today + 90, away: [away] }); // prettier-ignore
        const days = jobs.map(({ day }) => day);
        expect(new Set(days).size).toBe(days.length);
        expect(Math.min(...days)).toBeGreaterThanOrEqual(today);
        const inside = jobs.filter(({ day }) => day >= away.from && day <= away.to);
        expect(inside.every(({ cannotWait }) => cannotWait)).toBe(true);
        const gaps = days.slice(1).map((day, i) => day - (days[i] ?? day));
        expect(Math.max(...gaps)).toBeLessThanOrEqual(Math.max(3, 2 * every));
      }),
      { seed: 20_260_301, numRuns: 300 },
    );
  });
});
