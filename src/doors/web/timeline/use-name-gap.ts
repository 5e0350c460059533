import { useTextScale, useWidthRem } from '../look/use-text-scale.ts';

/** Lines of a name and its time, by the width of the window in the reader's own type; one where they stand in a row. Tried out. */
const LINES: readonly { readonly atLeastRem: number; readonly lines: number }[] = [
  { atLeastRem: 40, lines: 1 },
  { atLeastRem: 23, lines: 2 },
  { atLeastRem: 17, lines: 3 },
  { atLeastRem: 0, lines: 4 },
];
/** A line of a name that has more than one, in px at the usual size. */
const LINE_PX = 21;
const BETWEEN_PX = 4;

/**
 * Least distance in px between two names of a time line that writes times before them.
 * @param rowPx what is kept between them where a name and its time stand in one row, at the usual size
 */
export function useNameGap(rowPx: number): number {
  const scale = useTextScale();
  const rem = useWidthRem();
  const lines = LINES.find(({ atLeastRem }) => rem >= atLeastRem)?.lines ?? 1;
  return scale * (lines === 1 ? rowPx : lines * LINE_PX + BETWEEN_PX);
}
