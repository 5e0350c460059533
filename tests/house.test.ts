import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

/** The house rules, read from the code itself. Each check also says how many things it looked at. */
const root = dirname(dirname(fileURLToPath(import.meta.url)));

const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  numbers: [],
  science: ['numbers'],
  make: ['numbers'],
  forecast: ['numbers', 'science', 'make'],
  record: ['numbers', 'make'],
  exchange: ['numbers', 'science', 'make', 'forecast', 'record'],
  store: ['record'],
  'doors/cli': ['numbers', 'science', 'make', 'forecast', 'record', 'exchange', 'store'],
  'doors/server': ['numbers', 'science', 'make', 'forecast', 'record', 'exchange', 'store'],
  'doors/web': ['numbers', 'science', 'make', 'forecast', 'record', 'exchange', 'store'],
};
/** The command starts the server: the one door that may open another. */
const OPENS: Readonly<Record<string, readonly string[]>> = { 'doors/cli': ['doors/server'] };
const PURE = ['numbers', 'science', 'make', 'forecast', 'record'];
/**
 * The most lines of a file that is read from top to bottom. A browser test tells one make from the milk to the record,
 * and is harder to follow cut in two than a little longer. Not held to it: data (makes, words, published and golden
 * values) and what a script writes, which nobody reads so.
 */
const LONGEST: Readonly<Record<string, number>> = { src: 300, scripts: 300, bench: 300, tests: 400 };
const READ = /\.(ts|tsx|mjs|css|html)$/;

function files(folder: string, ends: RegExp): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return files(path, ends);
    return ends.test(name) ? [path] : [];
  });
}

const roomOf = (path: string): string => {
  const [first = '', second = ''] = relative(join(root, 'src'), path).split(/[\\/]/);
  return first === 'doors' ? `doors/${second}` : first;
};

const isTest = (path: string): boolean => /\.test\.tsx?$/.test(path);
const sources = files(join(root, 'src'), /\.tsx?$/).filter((path) => !isTest(path));
const text = (path: string): string => readFileSync(path, 'utf8');
const IMPORT = /(?:from|import)\s*\(?\s*['"]([^'"]+)['"]/g;
const imports = sources.flatMap((path) =>
  [...text(path).matchAll(IMPORT)].map((match) => ({ path, target: match[1] ?? '' })),
);

describe('the house', () => {
  it('lets imports go one way only', () => {
    const wrong: string[] = [];
    let looked = 0;
    for (const { path, target } of imports) {
      const from = roomOf(path);
      if (!target.startsWith('.')) continue;
      looked++;
      const to = resolve(dirname(path), target);
      // Data beside the rooms (makes, words, the demo) may be read by doors and exchange.
      if (!to.startsWith(join(root, 'src'))) {
        if (PURE.includes(from) || from === 'store') wrong.push(`${relative(root, path)} reads ${target}`);
        continue;
      }
      const room = roomOf(to);
      const allowed = [from, ...(MAY_IMPORT[from] ?? []), ...(OPENS[from] ?? [])];
      if (!allowed.includes(room)) wrong.push(`${relative(root, path)} imports ${room}`);
    }
    expect(wrong).toEqual([]);
    expect(looked).toBeGreaterThan(200);
  });

  it('keeps libraries out of the pure rooms, but for the schema library in make and record, and the solver behind its own door', () => {
    const wrong: string[] = [];
    let looked = 0;
    for (const { path, target } of imports) {
      const room = roomOf(path);
      if (target.startsWith('.') || !PURE.includes(room)) continue;
      looked++;
      const isSolver = target === 'yalps' && relative(root, path) === join('src', 'forecast', 'day', 'milp.ts');
      if (!isSolver && !(target === 'zod' && (room === 'make' || room === 'record')))
        wrong.push(`${relative(root, path)}: ${target}`);
    }
    expect(wrong).toEqual([]);
    expect(looked).toBeGreaterThan(3);
  });

  it('keeps clocks, chance and the machine out of the pure rooms', () => {
    const wrong: string[] = [];
    let looked = 0;
    for (const path of sources.filter((path) => PURE.includes(roomOf(path)))) {
      looked++;
      const code = withoutComments(text(path));
      for (const word of [
        /\bDate\b/,
        /\bMath\.random\b/,
        /\bperformance\b/,
        /\bfetch\(/,
        /\bprocess\./,
        /\bconsole\./,
        /\bawait\b/,
      ]) {
        if (word.test(code)) wrong.push(`${relative(root, path)}: ${word.source}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(looked).toBeGreaterThan(40);
  });

  it('keeps every file short enough to read in one sitting', () => {
    const long: string[] = [];
    let looked = 0;
    for (const [folder, most] of Object.entries(LONGEST)) {
      for (const path of files(join(root, folder), READ)) {
        looked++;
        const lines = text(path).split('\n').length;
        if (lines > most) long.push(`${relative(root, path)}: ${lines} lines, ${most} at most`);
      }
    }
    expect(long).toEqual([]);
    expect(looked).toBeGreaterThan(500);
  });

  it('silences no check', () => {
    const wrong: string[] = [];
    const all = [...files(join(root, 'src'), /\.tsx?$/), ...files(join(root, 'tests'), /\.ts$/)];
    for (const path of all) {
      if (path.endsWith('house.test.ts')) continue;
      if (
        /@ts-ignore|@ts-expect-error|\bas any\b|oxlint-disable|eslint-disable|\b(it|test|describe)\.(skip|only|todo)\b/.test(
          text(path),
        )
      ) {
        wrong.push(relative(root, path));
      }
    }
    expect(wrong).toEqual([]);
    expect(all.length).toBeGreaterThan(120);
  });

  it('gives every public function of science a docstring with its source', () => {
    const wrong: string[] = [];
    let looked = 0;
    for (const path of sources.filter((path) => roomOf(path) === 'science')) {
      const code = text(path);
      for (const match of code.matchAll(/^export function (\w+)/gm)) {
        looked++;
        const before = code.slice(0, match.index).trimEnd();
        const doc = before.endsWith('*/') ? before.slice(before.lastIndexOf('/**')) : '';
        if (doc === '') wrong.push(`${relative(root, path)}: ${match[1]} has no docstring`);
        // A kernel is documented by the checked function it serves, which it names.
        else if (!/@source|[Kk]ernel|as `/.test(doc) && !/Source|source|\(\d{4}\)/.test(doc) && doc.length > 400) {
          wrong.push(`${relative(root, path)}: ${match[1]} names no source`);
        }
      }
    }
    expect(wrong).toEqual([]);
    expect(looked).toBeGreaterThan(80);
  });

  it('says where every constant of science comes from', () => {
    const wrong: string[] = [];
    let looked = 0;
    for (const path of sources.filter((path) => roomOf(path) === 'science')) {
      const lines = text(path).split('\n');
      for (const [index, line] of lines.entries()) {
        if (!/^(export )?const [A-Z][A-Z0-9_]* = -?[\d.]/.test(line)) continue;
        looked++;
        // A block of constants may share the comment above it.
        let above = index;
        while (above > 0 && /^(export )?const /.test(lines[above - 1] ?? '')) above--;
        const near = `${line} ${lines[above - 1] ?? ''}`;
        if (!/\/\/|\*/.test(near)) wrong.push(`${relative(root, path)}:${index + 1} ${line}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(looked).toBeGreaterThan(40);
  });

  it('has a README in every room', () => {
    const rooms = Object.keys(MAY_IMPORT);
    const missing = rooms.filter((room) => !readdirSync(join(root, 'src', room)).includes('README.md'));
    expect(missing).toEqual([]);
  });
});

function withoutComments(code: string): string {
  return code
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/\/\/.*$/gm, '')
    .replace(/(['"`])(?:\\.|(?!\1)[^\\\n])*\1/g, "''");
}
