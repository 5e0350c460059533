import { describe, expect, it } from 'vitest';
import { openQuestions, readLogger, settled, type LoggerOutcome } from './logger-file.ts';
import { proposeMapping, signatureOf, type LoggerMapping, type Rows } from './mapping.ts';
import type { Moment } from './stamp.ts';

const DAY = { year: 2026, month: 3, day: 4 };
const MORNING = Date.UTC(2026, 2, 4, 8);
/** The clock on the wall of this dairy shows UTC. */
const instantOf = (m: Moment): number =>
  Date.UTC(m.year, m.month - 1, m.day, m.hours, m.minutes, m.seconds) - (m.utcOffsetMin ?? 0) * 60_000;
const rowsOf = (text: string, cut = ','): Rows => text.split('\n').map((line) => line.split(cut));

interface Answers {
  readonly mapping?: Partial<LoggerMapping>;
  readonly startedAt?: number | null;
  readonly clockAheadMs?: number;
  readonly known?: ReadonlySet<string>;
}

function read(rows: Rows, answers: Answers = {}): LoggerOutcome {
  const mapping = settled({ ...proposeMapping(rows), ...answers.mapping });
  if (mapping === null) throw new Error('something is still to be asked');
  return readLogger({ rows, mapping, day: DAY, instantOf, startedAt: answers.startedAt ?? null, clockAheadMs: answers.clockAheadMs ?? 0, fromAt: MORNING - 3_600_000, toAt: MORNING + 86_400_000, known: answers.known ?? new Set() }); // prettier-ignore
}

const clockOf = (at: number): string => new Date(at).toISOString().slice(5, 16);

describe('which column is what', () => {
  it('is told by the words above them, in whatever order they stand', () => {
    const rows = rowsOf('Logger 7\nNo.,pH,Vat temp (°F),Date/Time\n1,6.62,89.6,2026-03-04 08:00\n2,6.61,91.4,2026-03-04 08:02'); // prettier-ignore
    expect(proposeMapping(rows)).toEqual({ headRows: 2, time: { column: 3, kind: 'stamp', dateColumn: null }, temperature: { column: 2, unit: 'F' }, pHColumn: 1, dayOrder: 'day-first' }); // prettier-ignore
    expect(read(rows).readings.map(({ quantity, value }) => [quantity, value])).toEqual([['temperatureC', 32], ['pH', 6.62], ['temperatureC', 33], ['pH', 6.61]]); // prettier-ignore
  });

  it('takes decimal commas between semicolons, and a date beside the clock', () => {
    const rows = rowsOf('Datum;Uhrzeit;Temperatur °C\n04.03.2026;08:00:00;32,5\n04.03.2026;08:02:00;33,1', ';');
    expect(openQuestions({ mapping: proposeMapping(rows), startedAt: null })).toEqual(['dayOrder']);
    const { readings, faults } = read(rows, { mapping: { dayOrder: 'day-first' } });
    expect(faults).toEqual([]);
    expect(readings.map(({ value, at }) => [value, clockOf(at)])).toEqual([[32.5, '03-04T08:00'], [33.1, '03-04T08:02']]); // prettier-ignore
  });

  it('asks which way round 04/03 is meant, and needs no answer where 25/03 is in the file', () => {
    const rows = rowsOf('time,temp C\n04/03/2026 08:00,32\n04/03/2026 08:30,33');
    expect(openQuestions({ mapping: proposeMapping(rows), startedAt: null })).toEqual(['dayOrder']);
    expect(read(rows, { mapping: { dayOrder: 'month-first' } }).fates).toEqual(['head', 'outside', 'outside']);
    expect(proposeMapping(rowsOf('time,temp C\n04/03/2026 08:00,32\n25/03/2026 08:30,33')).dayOrder).toBe('day-first');
    expect(proposeMapping(rowsOf('time,temp C\n03/25/2026 08:00,32\n03/04/2026 08:30,33')).dayOrder).toBe('month-first'); // prettier-ignore
  });

  it('asks for the degree where none is named, and for the start where the logger only counts', () => {
    const rows = rowsOf('seconds,probe\n0,90\n120,91\n240,92');
    const mapping = proposeMapping(rows);
    expect(openQuestions({ mapping, startedAt: null })).toEqual(['startedAt', 'unit']);
    const { readings } = read(rows, { mapping: { temperature: { column: 1, unit: 'F' } }, startedAt: MORNING });
    expect(readings.map(({ value, at }) => [value, clockOf(at)])).toEqual([[32.222, '03-04T08:00'], [32.778, '03-04T08:02'], [33.333, '03-04T08:04']]); // prettier-ignore
  });

  it('reads files without a heading, and the unit from the cells', () => {
    const { readings } = read(rowsOf('08:00,32.0 °C\n08:02,33.5 °C'));
    expect(readings.map(({ value }) => value)).toEqual([32, 33.5]);
    expect(proposeMapping(rowsOf('1772611200,33\n1772611320,34')).time?.kind).toBe('unix-s');
  });

  it('knows a file like the last one again by its heading', () => {
    const file = (temperature: string): Rows => rowsOf(`Made by a logger\nTime,Temp °C\n08:00,${temperature}\n08:02,33`); // prettier-ignore
    expect(signatureOf(file('32'), proposeMapping(file('32')))).toBe('time|temp °c');
  });
});

describe('the rows of a logger', () => {
  it('go on past midnight where only the clock is written', () => {
    const { readings } = read(rowsOf('time,temp C\n11:50 PM,20\n11:58 PM,21\n12:06 AM,22'));
    expect(readings.map(({ at }) => clockOf(at))).toEqual(['03-04T23:50', '03-04T23:58', '03-05T00:06']);
  });

  it('are moved by as much as the logger was ahead of the wall clock', () => {
    const { readings } = read(rowsOf('time,temp C\n2026-03-04T09:07:00+01:00,20\n2026-03-04T09:17:00+01:00,21'), { clockAheadMs: 420_000 }); // prettier-ignore
    expect(readings.map(({ at }) => clockOf(at))).toEqual(['03-04T08:00', '03-04T08:10']);
  });

  it('that are wrong are named: row, column, value and what would do', () => {
    const { faults, readings } = read(rowsOf('time,temp C\n08:00,32\n08:02,---\n25:00,33\n08:06,333\n,33\n08:10,\n08:12,33,5\n08:14,33')); // prettier-ignore
    expect(readings.map(({ row }) => row)).toEqual([2, 9]);
    expect(faults).toEqual([
      { row: 3, column: 'temp C', value: '---', code: 'not-a-number' },
      { row: 4, column: 'time', value: '25:00', code: 'time-unreadable' },
      { row: 5, column: 'temp C', value: '333', code: 'impossible', expected: '-25 to 110 °C' },
      { row: 6, column: 'time', value: '', code: 'no-time' },
      { row: 7, column: 'temp C', value: '', code: 'no-value' },
      { row: 8, column: '3', value: '5', code: 'too-many-cells' },
    ]);
    expect(read(rowsOf('time,temp C\n2026-02-27 08:00,3\n2026-02-30 08:00,3')).faults[0]?.code).toBe('no-such-day');
  });

  it('that begin like a formula are text and nothing else', () => {
    const { faults, readings } = read(rowsOf('time,temp C\n08:00,32\n08:02,33\n08:04,34\n08:06,35\n08:08,=36+1\n08:10,@SUM(A1)\n08:12,+cmd|x')); // prettier-ignore
    expect(readings).toHaveLength(4);
    expect(faults.map(({ value, code }) => [value, code])).toEqual([['=36+1', 'not-a-number'], ['@SUM(A1)', 'not-a-number'], ['+cmd|x', 'not-a-number']]); // prettier-ignore
  });

  it('are thinned to what the make needs: the heating is kept closely, the waiting loosely, first and last always', () => {
    // A minute of heating by 1 °C, then an hour in which a sensor of 0.1 °C flickers; a value each second.
    const lines = Array.from({ length: 3660 }, (_, second) => {
      const clock = new Date(MORNING + second * 1000).toISOString().slice(11, 19);
      return `${clock},${second < 60 ? (32 + second / 20).toFixed(1) : 35 + (second % 2) / 10}`;
    });
    const { readings, fates, all } = read(rowsOf(['time,temp C', ...lines].join('\n')));
    expect(all).toHaveLength(3660);
    expect(readings[0]?.row).toBe(2);
    expect(readings.at(-1)?.row).toBe(3661);
    expect(readings.filter(({ at }) => at < MORNING + 60_000).length).toBeGreaterThanOrEqual(5);
    expect(readings.length).toBeLessThan(45);
    expect(fates.filter((fate) => fate === 'thinned')).toHaveLength(3660 - readings.length);
  });

  it('of a coarse sensor that flickers between two whole degrees are no movement', () => {
    const lines = Array.from({ length: 60 }, (_, minute) => `08:${String(minute).padStart(2, '0')},${36 + (minute % 2)}`); // prettier-ignore
    expect(read(rowsOf(['time,temp C', ...lines].join('\n'))).readings.length).toBeLessThanOrEqual(31);
  });

  it('come in once however often the file is chosen', () => {
    const rows = rowsOf('time,temp C\n08:00,32\n08:10,33');
    const known = new Set([`temperatureC ${MORNING} 32`]);
    expect(read(rows, { known }).fates).toEqual(['head', 'known', 'reading']);
  });
});
