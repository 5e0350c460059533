/** A share of a packet in the words one would use at the table. */

const SHARES: readonly (readonly [number, string])[] = [
  [1 / 16, 'a sixteenth of the packet'],
  [1 / 8, 'an eighth of the packet'],
  [1 / 4, 'a quarter of the packet'],
  [1 / 3, 'a third of the packet'],
  [3 / 8, 'three eighths of the packet'],
  [1 / 2, 'half the packet'],
  [5 / 8, 'five eighths of the packet'],
  [2 / 3, 'two thirds of the packet'],
  [3 / 4, 'three quarters of the packet'],
  [7 / 8, 'seven eighths of the packet'],
  [1, 'the whole packet'],
];

const AS_GOOD_AS = 0.04; // Vatside's own choice: nobody divides powder more finely than 4 %
/** Powder divided on paper by eye, percent off; common practice (no source) */
export const DIVIDED_BY_EYE_PERCENT = 15;

/** A share in words, and how far off hands will be, percent. */
export interface Share {
  readonly words: string;
  readonly errorPercent: number;
}

/**
 * "Half the packet", "1 packet and a quarter of the packet", "a little over a third of the packet".
 * @param packets number of packets, above 0
 * @returns words, and the error of dividing powder by eye; 0 for whole packets
 */
export function packetShare(packets: number): Share {
  const whole = Math.floor(packets * (1 + AS_GOOD_AS / 2));
  const rest = Math.max(0, packets - whole);
  if (rest <= AS_GOOD_AS * packets) {
    return { words: whole === 1 ? 'the whole packet' : `${whole} packets`, errorPercent: 0 };
  }
  const part = shareWords(rest);
  const words = whole === 0 ? part : `${whole} ${whole === 1 ? 'packet' : 'packets'} and ${part.replace(' of the', ' of a').replace('half the packet', 'half a packet')}`; // prettier-ignore
  return { words, errorPercent: Math.round((DIVIDED_BY_EYE_PERCENT * rest) / packets) };
}

function shareWords(fraction: number): string {
  let best: readonly [number, string] = SHARES[0] ?? [1, ''];
  for (const share of SHARES) {
    if (Math.abs(Math.log(fraction / share[0])) < Math.abs(Math.log(fraction / best[0]))) best = share;
  }
  const [value, words] = best;
  const off = fraction / value - 1;
  if (Math.abs(off) <= AS_GOOD_AS) return words;
  return off > 0 ? `a little over ${words}` : `a little under ${words}`;
}
