import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

/** Screens are laid out in reading order, so that a language written from the right needs no style of its own. */
const root = 'src/doors/web';
const filesOf = (ends: RegExp): readonly string[] =>
  readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((path) => ends.test(path) && !/\.test\./.test(path));

/** Where left and right are meant as they stand. */
const MEANT: readonly (readonly [file: RegExp, line: RegExp, because: string])[] = [
  [/^timeline\//, /./, 'a time line is a drawing, and runs from left to right whichever way the words run'],
  [
    /^(vat\/vat-button|ageing\/round)\.css$/,
    /data-hand='left'/,
    'the hand that taps, which the reader turns round with the words',
  ],
  [/^vat\/caution\.css$/, /border-width: 0 3px 3px 0/, 'two edges of a sign that is turned to point down'],
  [/^print\/print\.css$/, /@bottom-right|^ *margin: 14mm/, 'margins of the paper itself'],
  [
    /^labels\/label-sheets\.tsx$/,
    /left: `\$\{leftMm\}mm`/,
    'a place on a sheet of labels, in millimetres from its edge',
  ],
];
const isMeant = (file: string, line: string): boolean => MEANT.some(([files, lines]) => files.test(file) && lines.test(line)); // prettier-ignore

const PHYSICAL = /(^|[\s;{'])(margin|padding|border|scroll-margin|scroll-padding)-(left|right)\b|(^|[\s;{])(left|right):|text-align: (left|right)|float: (left|right)|clear: (left|right)|border-(top|bottom)-(left|right)-radius|@bottom-(left|right)|data-hand=/; // prettier-ignore
const IN_CODE =
  /\b(margin|padding|border)(Left|Right)\b|textAlign: '(left|right)'|style=\{\{[^}]*\b(left|right):|^\s*(left|right): `/;

/** The four sides of a shorthand differ left and right: "padding: 0 1rem 0 0". */
function isLopsided(line: string): boolean {
  const [, sides = ''] = /^\s*(?:margin|padding|inset|border-width|border-radius): ([^;]+);/.exec(line) ?? [];
  const parts = sides.match(/(?:[^\s()]|\((?:[^()]|\([^()]*\))*\))+/g) ?? [];
  return parts.length === 4 && parts[1] !== parts[3];
}

const linesOf = (file: string): readonly string[] => readFileSync(join(root, file), 'utf8').replaceAll(/\/\*.*?\*\//gs, '').split('\n'); // prettier-ignore

describe('a page that runs from right to left', () => {
  it('finds no left and no right in a style, beside those that are meant', () => {
    const styles = filesOf(/\.css$/);
    const wrong = styles.flatMap((file) =>
      linesOf(file)
        .filter((line) => (PHYSICAL.test(line) || isLopsided(line)) && !isMeant(file, line))
        .map((line) => `${file}: ${line.trim()}`),
    );
    expect(styles.length).toBeGreaterThan(40);
    expect(wrong).toEqual([]);
  });

  it('finds none in what a component sets by itself', () => {
    const wrong = filesOf(/\.tsx$/).flatMap((file) =>
      linesOf(file)
        .filter((line) => IN_CODE.test(line) && !isMeant(file, line))
        .map((line) => `${file}: ${line.trim()}`),
    );
    expect(wrong).toEqual([]);
  });

  it('would find one', () => {
    for (const line of ['  padding-left: 1rem;', 'border-right-color: red;', '  text-align: right;', '  left: 0;', '.a { right: 2px; }']) expect(PHYSICAL.test(line), line).toBe(true); // prettier-ignore
    for (const line of ['  padding: 0 1px 0 calc(1px + (2px - 1px));', '  border-radius: 0 0 0 4px;']) expect(isLopsided(line), line).toBe(true); // prettier-ignore
    for (const line of ['  padding: 0 1px;', '  margin: 0 1px 4px 1px;', '  padding-inline-start: 1rem;', '.pause-left {']) expect(PHYSICAL.test(line) || isLopsided(line), line).toBe(false); // prettier-ignore
    expect(IN_CODE.test('style={{ marginLeft: 4 }}')).toBe(true);
  });

  it('finds every exception still in use', () => {
    const all = filesOf(/\.(css|tsx)$/).flatMap((file) => linesOf(file).map((line) => [file, line] as const));
    const idle = MEANT.filter(([files, lines]) => !all.some(([file, line]) => files.test(file) && lines.test(line)));
    expect(idle.map(([, , because]) => because)).toEqual([]);
  });
});
