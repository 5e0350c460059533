import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sha256 } from './sha256.ts';

const sumOf = (...texts: readonly string[]): string => {
  const sum = sha256();
  for (const text of texts) sum.update(text);
  return sum.hex();
};
const other = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

describe('the sum of a file', () => {
  it('is that of the standard for its own examples', () => {
    // NIST, FIPS 180-4 example values for SHA-256: "abc" and the two-block message; from memory.
    expect(sumOf('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    expect(sumOf('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')).toBe('248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1'); // prettier-ignore
  });

  it('agrees with another implementation at every length round a block, and for every alphabet', () => {
    for (let length = 0; length < 140; length++) expect(sumOf('a'.repeat(length))).toBe(other('a'.repeat(length)));
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'binary', maxLength: 90 }), { maxLength: 4 }), (parts) => {
        expect(sumOf(...parts)).toBe(other(parts.map((part) => Buffer.from(part).toString()).join('')));
      }),
      { seed: 7, numRuns: 60 },
    );
  });
});
