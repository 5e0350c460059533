import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CLOSEST_MS, heardNow, isStale, NOTHING_HEARD, STALE_MS, type HeardAt } from './live-value.ts';
import { cutLines, readProbeLine } from './probe-line.ts';
import { readTemperature } from './temperature-characteristic.ts';
import { vatSampleAt } from './vat-sample.ts';

const C = (value: number) => ({ quantity: 'temperatureC' as const, value });
const pH = (value: number) => ({ quantity: 'pH' as const, value });

describe('a line from a probe', () => {
  it.each([
    ['23.4', [C(23.4)]],
    ['  36,5 ', [C(36.5)]],
    ['-1.5', [C(-1.5)]],
    ['T=23.4 C', [C(23.4)]],
    ['T:23.4', [C(23.4)]],
    ['temp(F): 98.6', [C(37)]],
    ['Temperature = 38.2 °C', [C(38.2)]],
    ['CH1 100.4°F', [C(38)]],
    ['pH 6.42', [pH(6.42)]],
    ['6.42 pH', [pH(6.42)]],
    ['pH=6.42;T=31.9', [C(31.9), pH(6.42)]],
    ['21.5 C, pH: 5.20', [C(21.5), pH(5.2)]],
  ] as const)('"%s" says what it says', (line, heard) => {
    expect(readProbeLine(line)).toEqual(heard);
  });

  it('that is no value says nothing: a greeting, half a line, noise, a formula', () => {
    for (const line of ['', 'ready', 'ERR', 'T=', 'pH', '23.4.5', '\u0000\u0001', '=1+1', '12 34', 'graph 6', 'x'.repeat(500)]) expect(readProbeLine(line), line).toEqual([]); // prettier-ignore
  });

  it('takes a bare number in the unit that the probe was said to have', () => {
    expect(readProbeLine('98.6', 'F')).toEqual([C(37)]);
    expect(readProbeLine('36.6 C', 'F')).toEqual([C(36.6)]);
  });

  it('is never more than one temperature and one pH, and always numbers, whatever arrives', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60, unit: 'grapheme' }), (line) => {
        const heard = readProbeLine(line);
        expect(new Set(heard.map(({ quantity }) => quantity)).size).toBe(heard.length);
        for (const { value } of heard) expect(Number.isFinite(value)).toBe(true);
      }),
      { seed: 20261129, numRuns: 2000 },
    );
  });

  it('is put together from pieces however they are cut', () => {
    fc.assert(
      fc.property(fc.array(fc.nat({ max: 40 }), { maxLength: 8 }), (cuts) => {
        const text = 'T=31.9 C\r\npH 6.42\n32.0\n33';
        const lines: string[] = [];
        let rest = '';
        let from = 0;
        for (const to of [...cuts.sort((a, b) => a - b), text.length]) {
          const cut = cutLines(rest, text.slice(from, Math.max(from, to)));
          lines.push(...cut.lines);
          rest = cut.rest;
          from = Math.max(from, to);
        }
        expect([lines.flatMap((line) => readProbeLine(line)), rest]).toEqual([[C(31.9), pH(6.42), C(32)], '33']);
      }),
      { seed: 20261129, numRuns: 300 },
    );
    expect(cutLines('', 'x'.repeat(5000)).rest).toBe('');
  });
});

describe('the temperature of a Bluetooth sensor', () => {
  const bytes = (...values: number[]): DataView => new DataView(new Uint8Array(values).buffer);
  it('is in hundredths of a degree, low byte first, below zero too, and can be unknown', () => {
    expect(readTemperature(bytes(0xec, 0x0e))).toBe(38.2);
    expect(readTemperature(bytes(0x6a, 0xff))).toBe(-1.5);
    expect(readTemperature(bytes(0x00, 0x80))).toBeNull();
    expect(readTemperature(bytes(0x10))).toBeNull();
  });
});

describe('a live value', () => {
  /** What is noted of values that come in one after the other. */
  function noted(values: readonly HeardAt[]): HeardAt[] {
    let state = NOTHING_HEARD;
    return values.flatMap((value) => {
      const next = heardNow(state, value, 'milk');
      state = next.state;
      return next.note ?? [];
    });
  }

  it('that rests is noted every two minutes', () => {
    const resting = Array.from({ length: 600 }, (_, second) => ({ ...C(32 + (second % 2) / 10), at: second * 1000 }));
    expect(noted(resting).map(({ at }) => at / 1000)).toEqual([0, 120, 240, 360, 480]);
  });

  it('that moves by more than half a degree is noted at once, but a loose wire does not fill the record', () => {
    const warming = Array.from({ length: 120 }, (_, second) => ({ ...C(32 + second / 60), at: second * 1000 }));
    expect(noted(warming).map(({ at }) => at / 1000)).toEqual([0, 31, 62, 93]);
    const loose = Array.from({ length: 600 }, (_, tenth) => ({ ...C(20 + (tenth % 2) * 15), at: tenth * 100 }));
    const kept = noted(loose);
    expect(kept.length).toBeLessThanOrEqual(6);
    kept.slice(1).forEach(({ at }, index) => expect(at - (kept[index]?.at ?? 0)).toBeGreaterThanOrEqual(CLOSEST_MS));
  });

  it('that cannot be true of milk is shown and not noted', () => {
    const next = heardNow(NOTHING_HEARD, { ...C(85), at: 0 }, 'milk');
    expect(next.note).toBeNull();
    expect(next.state.last.temperatureC).toMatchObject({ value: 85, isPlausible: false });
    expect(heardNow(NOTHING_HEARD, { ...C(127), at: 0 }, 'whey').note).toBeNull();
  });

  it('is an old one after a minute of silence', () => {
    expect([STALE_MS - 1, STALE_MS].map((at) => isStale({ at: 0 }, at))).toEqual([false, true]);
  });

  it('is of the milk until the cut, of the whey until it is drained, then of the curd', () => {
    const make = {
      steps: [
        { id: 'warm', verb: 'warm' },
        { id: 'cut', verb: 'cut' },
        { id: 'off', verb: 'drain' },
      ],
    };
    const step = (stepId: string, startedAt: number) => ({ stepId, startedAt, endedAt: null, said: null, startEventId: null, endEventId: null }); // prettier-ignore
    const record = { make, steps: [step('warm', 0), step('cut', 100), step('off', 200)] };
    expect([50, 100, 150, 250].map((at) => vatSampleAt({ record, at }))).toEqual(['milk', 'whey', 'whey', 'curd']);
    expect(vatSampleAt({ record: { make: null, steps: [] }, at: 0 })).toBe('milk');
  });
});
