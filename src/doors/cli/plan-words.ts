/** Flags that take words as they stand on a carton, a packet or a bottle: `--milk-type whole,raw`, `--culture half`. */
import { speciesSchema, treatmentSchema } from '../../make/make.ts';
import type { Problem } from '../../numbers/validity.ts';

type WordValue = string | number | boolean | { readonly low: number; readonly high: number };

export type WordRead = { readonly path: string; readonly value: WordValue } | { readonly problem: Problem };

const HALF_FAT_PERCENT = 1.7; // common practice (no source): semi-skimmed milk on sale has 1.5 to 2 % fat
const SKIMMED_FAT_PERCENT = 0.3; // common practice (no source): skimmed milk on sale has up to 0.5 % fat
const SHARES: Readonly<Record<string, number>> = { full: 1, half: 0.5, third: 1 / 3, quarter: 0.25, double: 2 };
const FORMS = ['freeze-dried', 'frozen', 'bulk', 'whey'] as const;
const MEASURES = ['packet', 'scale', 'spoon'] as const;
const RENNETS = ['liquid', 'powder', 'tablet'] as const;

/** The paths that each flag may answer. */
export const WORD_FLAGS: Readonly<Record<string, readonly string[]>> = {
  'milk-type': ['milk.treatment', 'milk.species', 'milk.homogenised'],
  culture: ['culture.packetFraction', 'culture.form', 'culture.measuredBy', 'culture.bulkPercent'],
  rennet: ['rennet.strengthImcuPerMl', 'rennet.form', 'rennet.testedSpanImcuPerMl', 'rennet.monthsStored'],
  burner: ['pot.burner'],
  'keep-warm': ['pot.keptWarm'],
  units: ['units'],
};

const put = (path: string, value: WordValue): WordRead => ({ path, value });

type Reader = (word: string) => readonly WordRead[] | null;

const oneOf =
  (path: string, words: readonly string[]): Reader =>
  (word) =>
    words.includes(word) ? [put(path, word)] : null;

/** What each flag understands, in the order it is tried, and how that is told. */
const READERS: Readonly<Record<string, { readonly expected: string; readonly read: readonly Reader[] }>> = {
  'milk-type': {
    expected: 'carton words: whole, semi-skimmed, skimmed, pasteurised, raw, high-heat, uht, homogenised, not-homogenised, cow, goat, sheep, buffalo', // prettier-ignore
    read: [
      (word) => (word === 'whole' || word === 'milk' ? [] : null),
      (word) => (/^(semi-skimmed|semi|half|half-fat)$/.test(word) ? [put('milk.fatPercent', HALF_FAT_PERCENT)] : null),
      (word) => (/^(skimmed|skim)$/.test(word) ? [put('milk.fatPercent', SKIMMED_FAT_PERCENT)] : null),
      (word) => (word === 'pasteurized' ? [put('milk.treatment', 'pasteurised')] : null),
      (word) => (/^(uht|long-life|ultra)$/.test(word) ? [put('milk.treatment', 'uht')] : null),
      (word) => (/^(homogenised|homogenized)$/.test(word) ? [put('milk.homogenised', true)] : null),
      (word) => (/^(not-|un)homogeni[sz]ed$|^cream-on-top$/.test(word) ? [put('milk.homogenised', false)] : null),
      oneOf('milk.treatment', treatmentSchema.options),
      oneOf('milk.species', speciesSchema.options),
    ],
  },
  culture: {
    expected: `a share of the full dose (half, quarter, 0.7), and if need be ${FORMS.join(', ')}, 1% of the milk, or measured by ${MEASURES.join(', ')}`, // prettier-ignore
    read: [
      (word) => (Object.hasOwn(SHARES, word) ? [put('culture.packetFraction', SHARES[word] ?? 1)] : null),
      oneOf('culture.form', FORMS),
      oneOf('culture.measuredBy', MEASURES),
      (word) => numbered(/^(-?[\d.]+)$/, word, 'culture.packetFraction'),
      (word) => numbered(/^(-?[\d.]+)%$/, word, 'culture.bulkPercent'),
    ],
  },
  rennet: {
    expected: `its strength in IMCU per mL (200), and if need be ${RENNETS.join(', ')}, the span that a cup test gave (85-265), its age (2months); leave it out if the label does not say`,
    read: [
      (word) => (word === 'unknown' ? [] : null),
      oneOf('rennet.form', RENNETS),
      (word) => numbered(/^(-?[\d.]+)(?:imcu(?:\/ml)?)?$/, word, 'rennet.strengthImcuPerMl'),
      (word) => numbered(/^([\d.]+)(?:months?|mo)$/, word, 'rennet.monthsStored'),
      spanned,
    ],
  },
  burner: { expected: 'small, medium or large', read: [oneOf('pot.burner', ['small', 'medium', 'large'])] },
  'keep-warm': {
    expected: 'open, lid, towels, sink or oven',
    read: [oneOf('pot.keptWarm', ['open', 'lid', 'towels', 'sink', 'oven'])],
  },
  units: { expected: 'metric or us', read: [oneOf('units', ['metric', 'us'])] },
};

/** Everything one flag says, word by word; a word that means nothing here is a problem with what would do. */
export function wordsOf(input: { readonly flag: string; readonly text: string }): WordRead[] {
  const reader = READERS[input.flag];
  if (reader === undefined) return [];
  const words = input.text.toLowerCase().split(/[\s,+]+/).filter((word) => word !== ''); // prettier-ignore
  return words.flatMap((word): readonly WordRead[] => {
    for (const read of reader.read) {
      const found = read(word);
      if (found !== null) return found;
    }
    const field = WORD_FLAGS[input.flag]?.[0] ?? input.flag;
    return [
      { problem: { code: 'unknown-choice', field, value: word, expected: reader.expected, remedy: 'Use one of these words, or leave it out.' } }, // prettier-ignore
    ];
  });
}

/** "85-265", as a cup test gives it. */
function spanned(word: string): readonly WordRead[] | null {
  const match = /^([\d.]+)-([\d.]+)(?:imcu(?:\/ml)?)?$/.exec(word);
  const [low, high] = [Number(match?.[1] ?? Number.NaN), Number(match?.[2] ?? Number.NaN)];
  return low < high ? [put('rennet.testedSpanImcuPerMl', { low, high })] : null;
}

function numbered(pattern: RegExp, word: string, path: string): readonly WordRead[] | null {
  const match = pattern.exec(word);
  const value = Number(match?.[1] ?? Number.NaN);
  return Number.isFinite(value) ? [put(path, value)] : null;
}
