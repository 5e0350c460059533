/** A sum's sentence from the catalogue, cut into words and blanks. */
export type SentencePart =
  | { readonly kind: 'words'; readonly text: string }
  /** One blank, or several of which one is filled: `{targetPH|gPerL}`. */
  | {
      readonly kind: 'blank';
      readonly paths: readonly string[];
      /** Commas and marks that must not begin a line without their blank. */
      readonly tail: string;
    };

/** Cuts "How much for {milkL} of milk, {targetPH|gPerL}?" at its braces. */
export function sentenceParts(sentence: string): readonly SentencePart[] {
  return [...sentence.matchAll(/\{([^{}]+)\}([.,;:?!]*)|([^{]+)/g)].map(
    ([, paths, tail = '', text = '']): SentencePart =>
      paths === undefined ? { kind: 'words', text } : { kind: 'blank', paths: paths.split('|'), tail },
  );
}

/** Every path that a sentence has a blank for. */
export const pathsIn = (parts: readonly SentencePart[]): readonly string[] =>
  parts.flatMap((part) => (part.kind === 'blank' ? part.paths : []));

/** The sentence with bare dots for its blanks, for lists and titles. */
export const askedShort = (sentence: string): string => sentence.replaceAll(/\{[^{}]+\}/g, '…');
