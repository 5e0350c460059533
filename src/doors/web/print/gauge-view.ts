import type { Plan } from '../../../make/plan.ts';

/** Edges of the squares, mm: wheat grain to walnut, the sizes that cutters and handbooks name (common practice, no source). */
const EDGES_MM = [6, 10, 13, 19, 25] as const;
/** The check bar, mm. */
export const BAR_MM = 100;
const GAP_MM = 12;
/** A cutter coarser than this has no square on the page. */
const LARGEST_MM = 40;

/** One square of the gauge, its place and its edge in mm. */
export interface GaugeSquare {
  readonly edgeMm: number;
  readonly xMm: number;
  readonly yMm: number;
  /** True for the size that this make cuts to. */
  readonly isYours: boolean;
}

/**
 * The squares in a row, standing on one line; a make's own size has a square of its own where it is none of them.
 * @param cutMm what the make cuts to; null where no make is meant
 */
export function gaugeSquares(cutMm: number | null): {
  readonly squares: readonly GaugeSquare[];
  readonly widthMm: number;
  readonly heightMm: number;
} {
  const own = cutMm !== null && cutMm > 0 && cutMm <= LARGEST_MM ? [cutMm] : [];
  const edges = [...new Set([...EDGES_MM, ...own])].sort((a, b) => a - b);
  const heightMm = Math.max(...edges);
  const squares: GaugeSquare[] = [];
  let xMm = 0;
  for (const edgeMm of edges) {
    squares.push({ edgeMm, xMm, yMm: heightMm - edgeMm, isYours: edgeMm === cutMm });
    xMm += edgeMm + GAP_MM;
  }
  return { squares, widthMm: xMm - GAP_MM, heightMm };
}

/** Where the gauge stands for a make: its own cut marked, if it cuts to a size. */
export function gaugeHref(plan: Plan): string {
  const cubeMm = plan.steps.find(({ verb }) => verb === 'cut')?.set.cubeMm;
  return typeof cubeMm === 'number' ? `/gauge?cut=${cubeMm}` : '/gauge';
}

/** The cut that stands in the address; null where none does, or none that can be drawn. */
export function cutOf(search: string): number | null {
  const cutMm = Number(new URLSearchParams(search).get('cut') ?? Number.NaN);
  return Number.isFinite(cutMm) && cutMm > 0 && cutMm <= LARGEST_MM ? cutMm : null;
}
