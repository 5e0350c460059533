import { inflateSync } from 'node:zlib';

/**
 * Reads back what a page printed, in millimetres: words with the height of their small letters, and filled rectangles.
 * Only as much of the format (ISO 32000-1) as the browser under test writes; anything else shows up as a missing word.
 */

const MM_PER_PT = 25.4 / 72;
/** Lower-case letters without a stroke above, flat or nearly so on top. */
const SMALL = 'xzvwunrmaecos';

/** A run of letters set in one go. Places are from the upper left corner of the page. */
export interface PdfWords {
  readonly page: number;
  readonly text: string;
  readonly leftMm: number;
  readonly rightMm: number;
  readonly baseMm: number;
  /** Height of its small letters, as drawn; null where the run has none. */
  readonly xHeightMm: number | null;
  /** Red, green and blue of its ink, 0 to 1. */
  readonly ink: readonly number[];
}

export interface PdfBox {
  readonly page: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly leftMm: number;
  readonly topMm: number;
}

export interface PdfPage {
  readonly widthMm: number;
  readonly heightMm: number;
}

interface Font {
  readonly glyphs: ReadonlyMap<number, { readonly text: string; readonly width: number; readonly top: number | null }>;
  readonly scale: number;
}
type Matrix = readonly [number, number, number, number, number, number];
const times = (a: Matrix, b: Matrix): Matrix => [
  a[0] * b[0] + a[1] * b[2],
  a[0] * b[1] + a[1] * b[3],
  a[2] * b[0] + a[3] * b[2],
  a[2] * b[1] + a[3] * b[3],
  a[4] * b[0] + a[5] * b[2] + b[4],
  a[4] * b[1] + a[5] * b[3] + b[5],
];

/** Everything on every page of a printed document. */
export function readPdf(file: Buffer): {
  readonly pages: readonly PdfPage[];
  readonly words: readonly PdfWords[];
  readonly boxes: readonly PdfBox[];
} {
  const objects = objectsOf(file);
  const dict = (number: string | undefined): string => objects.get(Number(number))?.dict ?? '';
  const kids = [...objects.values()].find(({ dict: one }) => /\/Type \/Pages\b/.test(one) && /\/Kids/.test(one))?.dict ?? ''; // prettier-ignore
  const pages: PdfPage[] = [];
  const words: PdfWords[] = [];
  const boxes: PdfBox[] = [];
  for (const [, number] of (/\/Kids \[([^\]]*)\]/.exec(kids)?.[1] ?? '').matchAll(/(\d+) 0 R/g)) {
    const page = dict(number);
    const [, width = '0', height = '0'] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(page) ?? [];
    const size = { widthMm: Number(width) * MM_PER_PT, heightMm: Number(height) * MM_PER_PT };
    const fonts = new Map([...page.matchAll(/\/(F\d+) (\d+) 0 R/g)].map(([, name = '', font]) => [name, fontOf(Number(font), objects)])); // prettier-ignore
    const content = objects.get(Number(/\/Contents (\d+) 0 R/.exec(page)?.[1]))?.stream ?? '';
    const drawn = draw({ content, fonts, heightPt: Number(height), page: pages.length });
    pages.push(size);
    words.push(...drawn.words);
    boxes.push(...drawn.boxes);
  }
  return { pages, words, boxes };
}

interface Stored {
  readonly dict: string;
  readonly stream: string;
}

function objectsOf(file: Buffer): ReadonlyMap<number, Stored> {
  const text = file.toString('latin1');
  const objects = new Map<number, Stored>();
  for (const match of text.matchAll(/(?:^|\n)(\d+) 0 obj\n/g)) {
    const from = match.index + match[0].length;
    const end = text.indexOf('endobj', from);
    const streamAt = text.indexOf('stream\n', from);
    const hasStream = streamAt !== -1 && streamAt < end;
    const dict = text.slice(from, hasStream ? streamAt : end);
    const length = Number(/\/Length (\d+)\b(?! 0 R)/.exec(dict)?.[1] ?? 0);
    const raw = file.subarray(streamAt + 7, streamAt + 7 + length);
    const stream = !hasStream ? '' : dict.includes('/FlateDecode') ? inflateSync(raw).toString('latin1') : raw.toString('latin1'); // prettier-ignore
    objects.set(Number(match[1]), { dict, stream });
  }
  return objects;
}

function fontOf(number: number, objects: ReadonlyMap<number, Stored>): Font {
  const dict = objects.get(number)?.dict ?? '';
  const texts = unicodeOf(objects.get(Number(/\/ToUnicode (\d+) 0 R/.exec(dict)?.[1]))?.stream ?? '');
  const drawn = new Map<number, { readonly width: number; readonly top: number }>();
  for (const [, code = '', proc] of dict.matchAll(/\/g([0-9A-F]+) (\d+) 0 R/g)) {
    const [, width = '0', top = '0'] = /^([-\d.]+) 0 [-\d.]+ ([-\d.]+) [-\d.]+ [-\d.]+ d1/.exec(objects.get(Number(proc))?.stream ?? '') ?? []; // prettier-ignore
    drawn.set(Number.parseInt(code, 16), { width: Number(width), top: Math.abs(Number(top)) });
  }
  const glyphs = new Map([...texts].map(([code, text]) => [code, { text, width: drawn.get(code)?.width ?? 0, top: drawn.get(code)?.top ?? null }] as const)); // prettier-ignore
  return { glyphs, scale: Number(/\/FontMatrix \[([\d.]+)/.exec(dict)?.[1] ?? 0.001) };
}

function unicodeOf(map: string): ReadonlyMap<number, string> {
  const texts = new Map<number, string>();
  const letter = (hex: string): string => Buffer.from(hex, 'hex').swap16().toString('utf16le');
  for (const [, block = ''] of map.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
    for (const [, code = '', hex = ''] of block.matchAll(/<([0-9A-Fa-f]+)> <([0-9A-Fa-f]+)>/g)) texts.set(Number.parseInt(code, 16), letter(hex)); // prettier-ignore
  for (const [, block = ''] of map.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
    for (const [, low = '', high = '', hex = ''] of block.matchAll(/<([0-9A-Fa-f]+)> <([0-9A-Fa-f]+)> <([0-9A-Fa-f]+)>/g)) {
      const first = Number.parseInt(low, 16);
      const start = Number.parseInt(hex, 16);
      for (let code = first; code <= Number.parseInt(high, 16); code++) texts.set(code, String.fromCodePoint(start + code - first)); // prettier-ignore
    }
  return texts;
} // prettier-ignore

interface Pen {
  readonly ctm: Matrix;
  readonly ink: readonly number[];
}

/** Follows the operators that move, set letters and fill; all others leave no mark that is looked at. */
function draw(input: {
  readonly content: string;
  readonly fonts: ReadonlyMap<string, Font>;
  readonly heightPt: number;
  readonly page: number;
}): { readonly words: readonly PdfWords[]; readonly boxes: readonly PdfBox[] } {
  const { content, fonts, heightPt, page } = input;
  const words: PdfWords[] = [];
  const boxes: PdfBox[] = [];
  const saved: Pen[] = [];
  let pen: Pen = { ctm: [1, 0, 0, 1, 0, 0], ink: [0, 0, 0] };
  let tm: Matrix = [1, 0, 0, 1, 0, 0];
  let font: Font | undefined;
  let size = 0;
  let path: (readonly [number, number, number, number])[] = [];
  let run: { text: string; left: number; right: number; base: number; xHeight: number | null } | null = null;
  const stack: string[] = [];
  const operand = (fromEnd: number): number => Number(stack.at(-fromEnd) ?? 0);
  const six = (): Matrix => [operand(6), operand(5), operand(4), operand(3), operand(2), operand(1)];
  const show = (hex: string): void => {
    const digits = font !== undefined && font.glyphs.size > 0 && hex.length % 4 === 0 && [...font.glyphs.values()].every(({ top }) => top === null) ? 4 : 2; // prettier-ignore
    for (let at = 0; at < hex.length; at += digits) {
      const glyph = font?.glyphs.get(Number.parseInt(hex.slice(at, at + digits), 16));
      const placed = times(tm, pen.ctm);
      const perUnit = size * (font?.scale ?? 0);
      const left = placed[4] * MM_PER_PT;
      const right = left + (glyph?.width ?? 0) * perUnit * Math.abs(placed[0]) * MM_PER_PT;
      const isSmall = glyph !== undefined && glyph.top !== null && SMALL.includes(glyph.text);
      const tall = isSmall ? (glyph.top ?? 0) * perUnit * Math.abs(placed[3]) * MM_PER_PT : null;
      run ??= { text: '', left, right, base: (heightPt - placed[5]) * MM_PER_PT, xHeight: null };
      run.text += glyph?.text ?? '\uFFFD';
      run.right = Math.max(run.right, right);
      if (tall !== null) run.xHeight = Math.min(run.xHeight ?? Infinity, tall);
    }
  };
  const operators: Readonly<Record<string, () => void>> = {
    q: () => void saved.push(pen),
    Q: () => void (pen = saved.pop() ?? pen),
    cm: () => void (pen = { ...pen, ctm: times(six(), pen.ctm) }),
    rg: () => void (pen = { ...pen, ink: [operand(3), operand(2), operand(1)] }),
    g: () => void (pen = { ...pen, ink: [operand(1), operand(1), operand(1)] }),
    BT: () => void ((run = null), (tm = [1, 0, 0, 1, 0, 0])),
    Tf: () => void ((font = fonts.get((stack.at(-2) ?? '').slice(1))), (size = operand(1))),
    Tm: () => void (tm = six()),
    Td: () => void (tm = times([1, 0, 0, 1, operand(2), operand(1)], tm)),
    Tj: () => show((stack.at(-1) ?? '').slice(1, -1)),
    ET: () => {
      if (run !== null) words.push({ page, text: run.text, leftMm: run.left, rightMm: run.right, baseMm: run.base, xHeightMm: run.xHeight, ink: pen.ink }); // prettier-ignore
    },
    re: () => void path.push([operand(4), operand(3), operand(2), operand(1)]),
    f: () => {
      for (const [x, y, width, height] of path) {
        const at = times([1, 0, 0, 1, x, y], pen.ctm);
        boxes.push({ page, widthMm: Math.abs(width * pen.ctm[0]) * MM_PER_PT, heightMm: Math.abs(height * pen.ctm[3]) * MM_PER_PT, leftMm: at[4] * MM_PER_PT, topMm: (heightPt - at[5]) * MM_PER_PT }); // prettier-ignore
      }
      path = [];
    },
    n: () => void (path = []),
    S: () => void (path = []),
  };
  for (const token of content.match(/<[0-9A-Fa-f]*>|\/?[A-Za-z0-9.*'"-]+/g) ?? []) {
    const act = operators[token === 'f*' ? 'f' : token];
    if (act === undefined) {
      stack.push(token);
      if (stack.length > 32) stack.shift();
      continue;
    }
    act();
    stack.length = 0;
  }
  return { words, boxes };
}

/** Contrast of an ink on white paper once its colour is taken away, by the WCAG 2.2 formula. */
export function greyContrast(ink: readonly number[]): number {
  const [red = 0, green = 0, blue = 0] = ink.map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05);
} // prettier-ignore
