import { expect } from 'vitest';
import { greyContrast, type PdfWords } from './pdf.ts';

/** Both papers, in millimetres. */
const PAPERS = { A4: [210, 297], Letter: [215.9, 279.4] } as const;
export const papers = ['A4', 'Letter'] as const;

export const letters = (text: string): string => text.replaceAll(/\s/gu, '');

/** What a photocopier does not forgive: words outside the paper, or in thin ink. */
export function expectLegible(words: readonly PdfWords[], paper: (typeof papers)[number]): void {
  expect(words.length).toBeGreaterThan(5);
  for (const word of words) {
    expect(greyContrast(word.ink), word.text).toBeGreaterThanOrEqual(7);
    expect(word.leftMm, word.text).toBeGreaterThanOrEqual(3);
    expect(word.rightMm, word.text).toBeLessThanOrEqual(PAPERS[paper][0] - 3);
    expect(word.baseMm, word.text).toBeGreaterThanOrEqual(3);
    expect(word.baseMm, word.text).toBeLessThanOrEqual(PAPERS[paper][1] - 3);
  }
  expect(words.map(({ text }) => text).join(' ')).not.toContain('\uFFFD');
}
