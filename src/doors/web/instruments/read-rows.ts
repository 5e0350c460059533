import Papa from 'papaparse';
import type { Rows } from '../../../exchange/logger/mapping.ts';

/** Larger files are no logger's of one make: a value each second for a day is 3 MB. Our own choice. */
export const LARGEST_FILE_BYTES = 12 * 1024 * 1024;

/** Tried in this order, so that a decimal comma between semicolons is not taken for the end of a cell. */
const CUTS = [';', '\t', '|', ','];

/** Cells of a file's text, whatever stands between them; nothing is turned into numbers, dates or formulas. */
export function rowsOf(text: string): Rows {
  const { data } = Papa.parse<string[]>(text.replace(/\s+$/, ''), { delimitersToGuess: CUTS, header: false, dynamicTyping: false, skipEmptyLines: false }); // prettier-ignore
  return data;
}

/** The text of a file as loggers write it: UTF-8, UTF-16 with its mark, else the older Western one that has a degree sign. */
export function textOf(bytes: ArrayBuffer): string {
  const [first, second] = new Uint8Array(bytes, 0, Math.min(2, bytes.byteLength));
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}
