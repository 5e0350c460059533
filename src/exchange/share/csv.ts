/** Rows as comma-separated text (RFC 4180), with nothing in it that a spreadsheet would run. */

/** A cell: a number stands as it is, words are made inert, null is empty. */
export type CsvCell = string | number | null;

/**
 * Words that a spreadsheet takes for a formula: they begin with one of these, blanks before them or not, full-width forms
 * included. An apostrophe before them makes them words again (OWASP, CSV injection).
 */
const FORMULA = /^(?:\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|[\t\r])/u;

/** The text of a table: lines end in CRLF, cells with commas, quotes or line ends are quoted. */
export const csvText = (rows: readonly (readonly CsvCell[])[]): string =>
  rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('');

function cellText(cell: CsvCell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  const inert = FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert;
}
