import type { Plan } from '../../../make/plan.ts';

/** Edges of the squares, mm: wheat grain to walnut, the sizes that cutters and handbooks name (common practice, no source). */
const EDGES_MM = [6, 10, 13, 19, 25] as const;
/** The check bar, mm. */
export const BAR_MM = 100;
/** A cutter coarser than this has no square on the page. */
const LARGEST_MM = 40;

/**
 * The edges of the squares, mm, ascending; a make's own size has a square of its own where it is none of them.
 * @param cutMm what the make cuts to; null where no make is meant
 */
export function gaugeEdges(cutMm: number | null): readonly number[] {
  const own = cutMm !== null && cutMm > 0 && cutMm <= LARGEST_MM ? [cutMm] : [];
  return [...new Set([...EDGES_MM, ...own])].sort((a, b) => a - b);
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
