import type { GrownFound } from './grown.ts';
import { ASKED, type Asked } from './store-measures.ts';
import { TOLD } from './told.ts';

/** The house's colours, from src/doors/web/look/tokens.css; marks and dashes tell the lines apart without them. */
const PAPER = '#fff';
const INK = '#12191c';
const INK2 = '#45525a';
const HAIR = '#c9d2d6';
const ACT = '#a3201c';
const LINES: Readonly<Record<Asked, { readonly colour: string; readonly dash: string; readonly mark: Mark }>> = {
  open: { colour: '#17407a', dash: '', mark: 'disc' },
  list: { colour: '#12604a', dash: '', mark: 'square' },
  older: { colour: '#12604a', dash: '7 4', mark: 'square' },
  compare: { colour: '#17407a', dash: '7 4', mark: 'disc' },
  search: { colour: '#8a5200', dash: '', mark: 'up' },
  rareSearch: { colour: '#8a5200', dash: '7 4', mark: 'up' },
  note: { colour: '#45525a', dash: '', mark: 'down' },
  start: { colour: '#45525a', dash: '7 4', mark: 'down' },
  exchange: { colour: '#45525a', dash: '2 4', mark: 'down' },
};
type Mark = 'disc' | 'square' | 'up' | 'down';

const WIDTH = 860;
const HEIGHT = 520;
const FRAME = { left: 64, right: 560, top: 56, bottom: 462 };
const TEXT_APART = 19;
const PROMISE_MS = 100;
const RADIUS = 4.5;

/** How long the 95th of a hundred answers took as the store grew, both scales in powers of ten, as an SVG file. */
export function growthPlot(found: readonly GrownFound[]): string {
  const sizes = found.map(({ batches }) => batches);
  const values = found.flatMap(({ times }) => ASKED.map((name) => times[name].p95)).filter((value) => value > 0);
  const span = { x: [Math.min(...sizes), Math.max(...sizes)] as const, y: [10 ** Math.floor(Math.log10(Math.min(...values, 1))), 10 ** Math.ceil(Math.log10(Math.max(...values, PROMISE_MS) * 1.01))] as const }; // prettier-ignore
  const along = (value: number, [from, to]: readonly [number, number]): number => (from === to ? 0.5 : Math.log10(value / from) / Math.log10(to / from)); // prettier-ignore
  const x = (batches: number): number => FRAME.left + along(batches, span.x) * (FRAME.right - FRAME.left);
  const y = (ms: number): number => FRAME.bottom - along(Math.max(ms, span.y[0]), span.y) * (FRAME.bottom - FRAME.top);
  const ticks: number[] = [];
  for (let at = span.y[0]; at <= span.y[1] * 1.001; at *= 10) ticks.push(at);
  const ends = ASKED.map((name) => ({ name, y: y(found.at(-1)?.times[name].p95 ?? 0) })).sort((a, b) => a.y - b.y);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="'Atkinson Hyperlegible Next', Verdana, sans-serif" font-size="15" fill="${INK}" role="img" aria-labelledby="title">`,
    `<title id="title">Time that 95 of 100 answers took at most, by the number of batches in the store</title>`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="${PAPER}"/>`,
    `<text x="${FRAME.left - 48}" y="28" font-size="17" font-weight="700">95 of 100 answers within, ms</text>`,
    ...ticks.map((at) => `<path d="M${FRAME.left} ${px(y(at))}H${FRAME.right}" stroke="${HAIR}"/><text x="${FRAME.left - 8}" y="${px(y(at) + 5)}" text-anchor="end">${at >= 1 ? at : String(at)}</text>`), // prettier-ignore
    ...found.map(({ batches, events }) => `<path d="M${px(x(batches))} ${FRAME.bottom}v6" stroke="${INK}"/><text x="${px(x(batches))}" y="${FRAME.bottom + 24}" text-anchor="middle">${grouped(batches)}</text><text x="${px(x(batches))}" y="${FRAME.bottom + 43}" text-anchor="middle" fill="${INK2}" font-size="13">${grouped(events)} events</text>`), // prettier-ignore
    `<text x="${FRAME.right + 56}" y="${FRAME.bottom + 24}" fill="${INK2}">batches</text>`,
    `<path d="M${FRAME.left} ${FRAME.bottom}H${FRAME.right}" stroke="${INK}"/>`,
    `<path d="M${FRAME.left} ${px(y(PROMISE_MS))}H${FRAME.right}" stroke="${ACT}" stroke-width="2.5"/><text x="${FRAME.left + 8}" y="${px(y(PROMISE_MS) - 7)}" fill="${ACT}">promised: 100 ms</text>`,
    ...ASKED.map((name) => lineOf(name, found.map((one) => [x(one.batches), y(one.times[name].p95)] as const))), // prettier-ignore
    ...spread(ends).map(({ name, y: at, from }) => `<path d="M${FRAME.right + 7} ${px(from)}L${FRAME.right + 22} ${px(at)}" stroke="${LINES[name].colour}"/>${markOf(LINES[name], FRAME.right + 30, at)}<text x="${FRAME.right + 40}" y="${px(at + 5)}">${TOLD[name]}</text>`), // prettier-ignore
    '</svg>\n',
  ].join('\n');
}

function lineOf(name: Asked, points: readonly (readonly [number, number])[]): string {
  const { colour, dash } = LINES[name];
  const path = points.map(([px1, py], index) => `${index === 0 ? 'M' : 'L'}${px(px1)} ${px(py)}`).join('');
  const dashes = dash === '' ? '' : ` stroke-dasharray="${dash}"`;
  return `<path d="${path}" fill="none" stroke="${colour}" stroke-width="2.2"${dashes}/>${points.map(([at, up]) => markOf(LINES[name], at, up)).join('')}`;
}

function markOf({ colour, mark }: { readonly colour: string; readonly mark: Mark }, x: number, y: number): string {
  const r = RADIUS;
  if (mark === 'disc') return `<circle cx="${px(x)}" cy="${px(y)}" r="${r}" fill="${colour}"/>`;
  if (mark === 'square')
    return `<rect x="${px(x - r)}" y="${px(y - r)}" width="${2 * r}" height="${2 * r}" fill="${colour}"/>`;
  const tip = mark === 'up' ? -r : r;
  return `<path d="M${px(x - r)} ${px(y - tip)}H${px(x + r)}L${px(x)} ${px(y + tip)}Z" fill="${colour}"/>`;
}

/** Words beside the ends of lines, moved down until none covers another. */
function spread(ends: readonly { readonly name: Asked; readonly y: number }[]): { readonly name: Asked; readonly y: number; readonly from: number }[] {
  let before = -Infinity;
  const down = ends.map(({ name, y }) => ({ name, from: y, y: (before = Math.max(y, before + TEXT_APART)) }));
  const over = Math.max(0, (down.at(-1)?.y ?? 0) - FRAME.bottom);
  return down.map((end, index) => ({ ...end, y: Math.max(FRAME.top + index * TEXT_APART, end.y - over) }));
} // prettier-ignore

const px = (value: number): string => String(Math.round(value * 10) / 10);
const grouped = (value: number): string => value.toLocaleString('en-GB');
