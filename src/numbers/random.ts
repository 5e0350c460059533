/**
 * Seeded chance: xoshiro128** (Blackman & Vigna 2018) seeded through SplitMix32-style mixing of one 32-bit seed.
 * The generator is part of every forecast's result: changing it changes the model version.
 */

export interface Random {
  /** The next 32 random bits as an unsigned integer. */
  nextUint32(): number;
  /** Uniform in [0, 1), 32 bits of resolution. */
  uniform(): number;
  /** Standard normal by the polar method (Marsaglia & Bray 1964). */
  normal(): number;
}

function splitMix(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return (z ^ (z >>> 15)) >>> 0;
  };
}

const rotateLeft = (x: number, k: number): number => (x << k) | (x >>> (32 - k));

/** xoshiro128** from its raw four-word state (published reference vectors are checked against this). */
export function xoshiro128(state: readonly [number, number, number, number]): Random {
  // Held as signed words: those stay small integers in the engine, at a third of the time.
  let s0 = state[0] | 0;
  let s1 = state[1] | 0;
  let s2 = state[2] | 0;
  let s3 = state[3] | 0;
  let spare: number | null = null;
  const nextUint32 = (): number => {
    const result = Math.imul(rotateLeft(Math.imul(s1, 5), 7), 9) >>> 0;
    const t = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= t;
    s3 = rotateLeft(s3, 11);
    return result;
  };
  const uniform = (): number => nextUint32() / 4294967296;
  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const u = 2 * uniform() - 1;
      const v = 2 * uniform() - 1;
      const q = u * u + v * v;
      if (q === 0 || q >= 1) continue;
      const factor = Math.sqrt((-2 * Math.log(q)) / q);
      spare = v * factor;
      return u * factor;
    }
  };
  return { nextUint32, uniform, normal };
}

/** A generator from one integer seed. Same seed, same sequence, on every machine. */
export function seededRandom(seed: number): Random {
  const next = splitMix(seed);
  return xoshiro128([next(), next(), next(), next()]);
}
