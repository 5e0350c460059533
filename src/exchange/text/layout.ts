/** Plain text in columns: wrapped, aligned, nothing wider than the page. */

/** Narrow and no-break spaces keep numbers together on a screen; in plain text they break searching and copying. */
export const plainSpaces = (text: string): string => text.replaceAll(/[\u00A0\u202F]/g, ' ');

/** "42 °C" stays on one line: a number and what follows it directly are not parted. */
const NO_BREAK = '\u00A0';
const keptTogether = (text: string): string =>
  text.replaceAll(/(\d) (?=(?:°[CF]|%|[a-zA-Z]{1,3})(?![a-zA-Z]))/g, `$1${NO_BREAK}`);

/** Text broken at spaces; every line after the first begins with `hang` spaces. */
export function wrapped(input: { readonly text: string; readonly width: number; readonly hang?: number }): string[] {
  const { width, hang = 0 } = input;
  const text = keptTogether(input.text);
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[ \t\n]+/).filter((part) => part !== '')) {
    const room = lines.length === 0 ? width : width - hang;
    if (line !== '' && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines.map((each, index) => plainSpaces(index === 0 ? each : `${' '.repeat(hang)}${each}`));
}

/**
 * Rows of cells under each other. Every column is as wide as its widest cell; the last one takes what is left of the page
 * and is wrapped under itself. Columns that are empty in every row are left out.
 * @param input.right columns set flush right (numbers)
 */
export const columns = (input: Columns): string[] => rowBlocks(input).flat();

/** The last column is never narrower, whatever stands before it. */
const LEAST_LAST = 12;

interface Columns {
  readonly rows: readonly (readonly string[])[];
  readonly width: number;
  readonly indent?: number;
  readonly right?: readonly number[];
}

/** The same, the lines of each row apart. */
export function rowBlocks(input: Columns): string[][] {
  const { rows, width, indent = 2, right = [] } = input;
  const count = Math.max(0, ...rows.map((row) => row.length));
  const all = Array.from({ length: count }, (_, column) => column);
  const used = all.filter((column) => rows.some((row) => (row[column] ?? '') !== ''));
  const last = used.at(-1);
  const wide = new Map(used.map((column) => [column, Math.max(...rows.map((row) => (row[column] ?? '').length))]));
  const start = used
    .filter((column) => column !== last)
    .reduce((sum, column) => sum + (wide.get(column) ?? 0) + 2, indent);
  return rows.map((row) => {
    const fixed = used
      .filter((column) => column !== last)
      .map((column) => {
        const cell = row[column] ?? '';
        const space = wide.get(column) ?? 0;
        return right.includes(column) ? cell.padStart(space) : cell.padEnd(space);
      });
    const tail = wrapped({
      text: last === undefined ? '' : (row[last] ?? ''),
      width: Math.max(width - start, LEAST_LAST),
    });
    const head = `${' '.repeat(indent)}${fixed.map((cell) => `${cell}  `).join('')}`;
    return tail.map((line, index) => `${index === 0 ? head : ' '.repeat(start)}${line}`.trimEnd());
  });
}

/** A section: its title, its lines, and an empty line before it. Nothing at all where there are no lines. */
export function section(input: { readonly title: string; readonly lines: readonly string[] }): string[] {
  return input.lines.length === 0 ? [] : ['', input.title, ...input.lines];
}

/** A paragraph indented by two, as every line of a section is. */
export function paragraph(input: { readonly text: string; readonly width: number; readonly hang?: number }): string[] {
  return wrapped({ ...input, width: input.width - 2 }).map((line) => `  ${line}`);
}
