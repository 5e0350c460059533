import jsQR from 'jsqr';
import { describe, expect, it } from 'vitest';
import { terminalCode } from './terminal-code.ts';

const ADDRESS = 'http://192.0.2.17:4712/pair#12345678';
const PX = 4;

/** What a camera sees of the lines: each letter one square wide and two high. */
function seen(lines: readonly string[]): { readonly pixels: Uint8ClampedArray; readonly side: number } {
  // oxlint rejects control signs in a pattern: the escapes are taken off by their ends.
  const rows = lines.map((line) => line.slice(line.indexOf('m') + 1, line.lastIndexOf('\u001B')));
  const side = (rows[0]?.length ?? 0) * PX;
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      const letter = rows[Math.floor(y / PX / 2)]?.[Math.floor(x / PX)] ?? ' ';
      const isUpper = Math.floor(y / PX) % 2 === 0;
      const isDark = letter === '█' || letter === (isUpper ? '▀' : '▄');
      if (isDark) pixels.fill(0, (y * side + x) * 4, (y * side + x) * 4 + 3);
    }
  }
  return { pixels, side };
}

describe('the code in the terminal', () => {
  it('is read by a camera as the very address', () => {
    const { pixels, side } = seen(terminalCode(ADDRESS, 80) ?? []);
    expect(jsQR(pixels, side, side)?.data).toBe(ADDRESS);
  });

  it('is left out where the terminal is too narrow for it', () => {
    expect(terminalCode(ADDRESS, 30)).toBeNull();
  });
});
