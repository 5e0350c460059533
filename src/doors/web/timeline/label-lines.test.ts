import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linesOf } from './label-lines.ts';

describe('a step’s name beside the time line', () => {
  it('takes one line where there is room, and wraps at its words where there is none', () => {
    expect(linesOf({ text: '11 Draw off whey', charsPerLine: 20 })).toBe(1);
    expect(linesOf({ text: '17 Stretch in hot water', charsPerLine: 20 })).toBe(2);
    expect(linesOf({ text: '17 Stretch in hot water', charsPerLine: 10 })).toBe(3);
    expect(linesOf({ text: '17 Stretch in hot water', charsPerLine: 23 })).toBe(1);
  });

  it('breaks a word that is longer than a line, and needs no more lines where there is more room', () => {
    expect(linesOf({ text: 'Understandably', charsPerLine: 5 })).toBe(3);
    const names = fc.string({ unit: fc.constantFrom('a', 'b', ' '), maxLength: 40 });
    fc.assert(
      fc.property(names, fc.integer({ min: 1, max: 30 }), (text, charsPerLine) => {
        const lines = linesOf({ text, charsPerLine });
        expect(lines).toBeGreaterThanOrEqual(1);
        expect(lines * charsPerLine).toBeGreaterThanOrEqual(text.replaceAll(' ', '').length);
        expect(linesOf({ text, charsPerLine: charsPerLine + 60 })).toBeLessThanOrEqual(lines);
      }),
      { seed: 20_261_129, numRuns: 200 },
    );
  });
});
