import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readLogger, settled, type RowFate } from '../../src/exchange/logger/logger-file.ts';
import { isBlank, proposeMapping, type LoggerMapping, type Rows } from '../../src/exchange/logger/mapping.ts';
import type { Moment } from '../../src/exchange/logger/stamp.ts';

const RUNS = { seed: 20261129, numRuns: 400 };
const MORNING = Date.UTC(2026, 2, 4, 8);
const instantOf = (m: Moment): number => Date.UTC(m.year, m.month - 1, m.day, m.hours, m.minutes, m.seconds) - (m.utcOffsetMin ?? 0) * 60_000; // prettier-ignore
const two = (value: number): string => String(value).padStart(2, '0');

/** Cells as loggers, and people who opened the file in between, leave them. */
const cell = fc.oneof(
  { weight: 4, arbitrary: fc.tuple(fc.integer({ min: 0, max: 27 }), fc.integer({ min: 0, max: 66 })).map(([h, m]) => `${two(h)}:${two(m)}`) }, // prettier-ignore
  { weight: 2, arbitrary: fc.tuple(fc.integer({ min: 0, max: 14 }), fc.integer({ min: 0, max: 33 })).map(([m, d]) => `2026-${two(m)}-${two(d)} 08:${two(d)}`) }, // prettier-ignore
  { weight: 2, arbitrary: fc.tuple(fc.integer({ min: 0, max: 14 }), fc.integer({ min: 0, max: 33 })).map(([m, d]) => `${d}/${m}/26 9:${two(d)} PM`) }, // prettier-ignore
  { weight: 6, arbitrary: fc.double({ min: -60, max: 300, noNaN: true }).map((value) => value.toFixed(1)) },
  { weight: 3, arbitrary: fc.double({ min: 0, max: 40, noNaN: true }).map((value) => value.toFixed(2).replace('.', ',')) }, // prettier-ignore
  { weight: 3, arbitrary: fc.constantFrom('', ' ', '---', 'NaN', 'ERR', '=1+1', '@SUM(A1)', '36.4 °C', '97 F', 'pH', '1e9', '-', '\u0000', '9e99', '1772611200') }, // prettier-ignore
  { weight: 1, arbitrary: fc.string({ maxLength: 12, unit: 'grapheme' }) },
);
const head = fc.array(fc.constantFrom('Time', 'Temp °F', 'temp (C)', 'pH', 'sec', 'No.', '', 'Date'), { maxLength: 5 });
/** A file without order, and an orderly one in which some cells went wrong. */
const wild: fc.Arbitrary<Rows> = fc.tuple(fc.array(head, { maxLength: 2 }), fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 40 })).map(([above, body]) => [...above, ...body]); // prettier-ignore
const orderly: fc.Arbitrary<Rows> = fc
  .array(fc.record({ temperature: fc.integer({ min: -40, max: 500 }), wrong: fc.option(cell, { freq: 6 }), place: fc.nat({ max: 3 }) }), { minLength: 1, maxLength: 60 })
  .map((lines) => [
    ['Time', 'Temp (C)', 'pH'],
    ...lines.map(({ temperature, wrong, place }, index) => {
      const row = [`${two(8 + Math.floor(index / 60))}:${two(index % 60)}`, (temperature / 10).toFixed(1), '6.6'];
      if (wrong !== null) row[place] = wrong;
      return row;
    }),
  ]); // prettier-ignore
const rows: fc.Arbitrary<Rows> = fc.oneof(wild, orderly);
const answers = fc.record({
  unit: fc.constantFrom('C' as const, 'F' as const),
  kind: fc.constantFrom('seconds' as const, 'minutes' as const, 'hours' as const, 'stamp' as const),
  order: fc.constantFrom('day-first' as const, 'month-first' as const),
  column: fc.nat({ max: 6 }),
});

function outcomeOf(
  file: Rows,
  given: {
    unit: 'C' | 'F';
    kind: 'seconds' | 'minutes' | 'hours' | 'stamp';
    order: 'day-first' | 'month-first';
    column: number;
  },
) {
  const proposed = proposeMapping(file);
  const mapping: LoggerMapping = {
    ...proposed,
    time: { column: proposed.time?.column ?? given.column, kind: proposed.time?.kind ?? given.kind, dateColumn: proposed.time?.dateColumn ?? null },
    temperature: { column: proposed.temperature?.column ?? given.column, unit: proposed.temperature?.unit ?? given.unit },
    dayOrder: proposed.dayOrder ?? given.order,
  }; // prettier-ignore
  const all = settled(mapping);
  if (all === null) throw new Error('everything was answered');
  return { mapping: all, outcome: readLogger({ rows: file, mapping: all, day: { year: 2026, month: 3, day: 4 }, instantOf, startedAt: MORNING, clockAheadMs: 0, fromAt: MORNING - 3_600_000, toAt: MORNING + 43_200_000, known: new Set() }) }; // prettier-ignore
}

describe('any file that a logger or a hand may have left', () => {
  it('is read without a crash, and no row of it is dropped in silence', () => {
    const seen = new Map<RowFate, number>();
    fc.assert(
      fc.property(rows, answers, (file, given) => {
        const { mapping, outcome } = outcomeOf(file, given);
        const { fates, faults, readings, all } = outcome;
        expect(fates).toHaveLength(file.length);
        const inAll = new Set(all.map(({ row }) => row));
        const read = new Set(readings.map(({ row }) => row));
        const named = new Set(faults.map(({ row }) => row));
        for (const [index, fate] of fates.entries()) {
          seen.set(fate, (seen.get(fate) ?? 0) + 1);
          const row = index + 1;
          expect(fate === 'head').toBe(index < mapping.headRows);
          if (fate === 'blank') expect(isBlank(file[index] ?? [])).toBe(true);
          expect(named.has(row)).toBe(fate === 'fault');
          if (fate === 'reading') expect(read.has(row)).toBe(true);
          if (fate === 'thinned') expect(inAll.has(row) && !read.has(row)).toBe(true);
          if (fate === 'outside') expect(inAll.has(row)).toBe(false);
        }
      }),
      RUNS,
    );
    // The files were not all of one kind.
    for (const fate of ['head', 'blank', 'reading', 'outside', 'fault'] as const) expect(seen.get(fate) ?? 0, fate).toBeGreaterThan(100); // prettier-ignore
  });

  it('gives readings that are possible, in time order, within the hours of the make', () => {
    let count = 0;
    fc.assert(
      fc.property(rows, answers, (file, given) => {
        const { readings } = outcomeOf(file, given).outcome;
        count += readings.length;
        for (const [index, { quantity, value, at }] of readings.entries()) {
          expect(value).toBeGreaterThanOrEqual(quantity === 'pH' ? 2.5 : -25);
          expect(value).toBeLessThanOrEqual(quantity === 'pH' ? 10 : 110);
          expect(Number.isSafeInteger(at)).toBe(true);
          expect(at).toBeGreaterThanOrEqual(Math.max(MORNING - 3_600_000, readings[index - 1]?.at ?? 0));
          expect(at).toBeLessThanOrEqual(MORNING + 43_200_000);
        }
      }),
      RUNS,
    );
    expect(count).toBeGreaterThan(500);
  });

  it('loses no value of a quiet file: what is not kept is within the pace of what is', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 5, max: 60, noNaN: true }), { minLength: 1, maxLength: 400 }), (values) => {
        const file: Rows = [['sec', 'temp C'], ...values.map((value, index) => [String(index * 15), value.toFixed(1)])];
        const { outcome } = outcomeOf(file, { unit: 'C', kind: 'seconds', order: 'day-first', column: 0 });
        const band = outcome.paces.temperatureC?.deadBand ?? 0;
        const every = outcome.paces.temperatureC?.everyMs ?? 0;
        for (const one of outcome.all) {
          const before = outcome.readings.findLast((kept) => kept.at <= one.at);
          expect(before).toBeDefined();
          expect(one.at - (before?.at ?? 0)).toBeLessThan(every);
          expect(Math.abs(one.value - (before?.value ?? Infinity))).toBeLessThanOrEqual(band + 1e-6);
        }
      }),
      { seed: 20261129, numRuns: 60 },
    );
  });
});
