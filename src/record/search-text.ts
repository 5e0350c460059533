/** Longest text that one batch is found by; what is written beyond it is in the record, not in the search. */
const LONGEST_SEARCH_CHARS = 20_000;

/**
 * Text as it is searched: small letters without accents, white space as one blank. `Réf. Straße` becomes `ref. strasse`.
 * The same on every device and server, so that what one finds another does.
 */
export function foldedText(text: string): string {
  return text
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .replaceAll('\u0000', ' ')
    .replaceAll(/\s+/g, ' ')
    .trim();
}

/** The texts that something is found by, as one folded text; a search never runs over the end of one into the next. */
export function searchText(texts: readonly string[]): string {
  return texts.map(foldedText).filter((text) => text !== '').join('\n').slice(0, LONGEST_SEARCH_CHARS); // prettier-ignore
}

/** The words of a search, folded; something is found that holds all of them, in whatever order, also within longer words. */
export function searchWords(search: string): readonly string[] {
  return foldedText(search)
    .split(' ')
    .filter((word) => word !== '');
}
