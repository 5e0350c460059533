/** SHA-256 in plain code: a page that came over plain HTTP has no other, and a file must carry its sum from there too. */

/** A sum that grows with what is put into it. */
export interface Sum {
  /** Text as UTF-8. */
  update(text: string): void;
  /** Sixty-four hexadecimal digits; the sum is over then. */
  hex(): string;
}

const BLOCK_BYTES = 64; // FIPS 180-4, 1: SHA-256 works on blocks of 512 bits
const ROUNDS = 64; // FIPS 180-4, 6.2.2

/** The first primes; their roots are the constants of the algorithm (FIPS 180-4, 4.2.2 and 5.3.3). */
function primes(count: number): number[] {
  const found: number[] = [];
  for (let next = 2; found.length < count; next++) if (found.every((prime) => next % prime !== 0)) found.push(next);
  return found;
}

/** The first 32 bits behind the point. */
const fractionBits = (value: number): number => Math.floor((value - Math.floor(value)) * 2 ** 32) | 0;
const K = primes(ROUNDS).map((prime) => fractionBits(Math.cbrt(prime)));
const START = primes(8).map((prime) => fractionBits(Math.sqrt(prime)));

/**
 * Begins a sum.
 * @source NIST FIPS 180-4 (2015) Secure Hash Standard, sections 4.1.2, 5.1.1, 5.3.3 and 6.2; from memory, held to another implementation by a test
 */
export function sha256(): Sum {
  const state = Int32Array.from(START);
  const block = new Uint8Array(BLOCK_BYTES);
  const words = new Int32Array(ROUNDS);
  let filled = 0;
  let bytes = 0;
  const put = (byte: number): void => {
    block[filled++] = byte;
    if (filled < BLOCK_BYTES) return;
    mix(state, block, words);
    filled = 0;
  };
  return {
    update(text) {
      for (let index = 0; index < text.length; index++) {
        const point = text.codePointAt(index) ?? 0;
        if (point > 0xffff) index++;
        if (point < 0x80) {
          put(point);
          bytes++;
          continue;
        }
        const octets = utf8(point);
        for (const octet of octets) put(octet);
        bytes += octets.length;
      }
    },
    hex() {
      const bits = bytes * 8;
      put(0x80);
      for (let left = (2 * BLOCK_BYTES - 8 - filled) % BLOCK_BYTES; left > 0; left--) put(0);
      for (let shift = 7; shift >= 0; shift--) put(Math.floor(bits / 2 ** (8 * shift)) % 256);
      return [...state].map((word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
    },
  };
}

/** One character beyond ASCII as UTF-8 (RFC 3629); half a pair of surrogates, which UTF-8 cannot carry, as U+FFFD. */
function utf8(point: number): readonly number[] {
  if (point < 0x800) return [0xc0 | (point >> 6), tail(point)];
  if (point >= 0xd800 && point < 0xe000) return [0xef, 0xbf, 0xbd];
  if (point < 0x10000) return [0xe0 | (point >> 12), tail(point >> 6), tail(point)];
  return [0xf0 | (point >> 18), tail(point >> 12), tail(point >> 6), tail(point)];
}
const tail = (bits: number): number => 0x80 | (bits & 0x3f);

const turned = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

/** One block into the state (FIPS 180-4, 6.2.2). */
function mix(state: Int32Array, block: Uint8Array, words: Int32Array): void {
  const at = (list: ArrayLike<number>, index: number): number => list[index] ?? 0;
  for (let index = 0; index < 16; index++) {
    const from = index * 4;
    words[index] = (at(block, from) << 24) | (at(block, from + 1) << 16) | (at(block, from + 2) << 8) | at(block, from + 3); // prettier-ignore
  }
  for (let index = 16; index < ROUNDS; index++) {
    const [early, late] = [at(words, index - 15), at(words, index - 2)];
    const small0 = turned(early, 7) ^ turned(early, 18) ^ (early >>> 3);
    const small1 = turned(late, 17) ^ turned(late, 19) ^ (late >>> 10);
    words[index] = (at(words, index - 16) + small0 + at(words, index - 7) + small1) | 0;
  }
  let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = state;
  for (let index = 0; index < ROUNDS; index++) {
    const big1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
    const one = (h + big1 + ((e & f) ^ (~e & g)) + at(K, index) + at(words, index)) | 0;
    const big0 = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
    const two = (big0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    h = g;
    g = f;
    f = e;
    e = (d + one) | 0;
    d = c;
    c = b;
    b = a;
    a = (one + two) | 0;
  }
  for (const [index, word] of [a, b, c, d, e, f, g, h].entries()) state[index] = (at(state, index) + word) | 0;
}
