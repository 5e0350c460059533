/** Rows as comma-separated text (RFC 4180), with nothing in it that a spreadsheet would run. */
import { shownText } from '../shown-text.ts';

/** A cell: a number stands as it is, words are made inert, null is empty. */
export type CsvCell = string | number | null;

/**
 * Words that a spreadsheet takes for a formula: they begin with one of these, blanks before them or not, full-width forms
 * included. An apostrophe before them makes them words again (OWASP, CSV injection).
 */
const FORMULA = /^(?:\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|[\t\r])/u;
/** Where spreadsheets of another country, or ones that know no quotes, would begin a cell in the middle of ours. */
const FORMULA_INSIDE = /(?<=[;|\t\n\r])(?=[=+\-@\uFF1D\uFF0B\uFF0D\uFF20])/gu;

/** The text of a table: lines end in CRLF, cells with signs that part cells anywhere, quotes or line ends are quoted. */
export const csvText = (rows: readonly (readonly CsvCell[])[]): string =>
  rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('');

function cellText(cell: CsvCell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  const words = shownText(cell).replaceAll(FORMULA_INSIDE, "'");
  const inert = FORMULA.test(words) ? `'${words}` : words;
  return /[",;\t\r\n]/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert;
}
