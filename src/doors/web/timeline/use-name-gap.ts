import { useCallback } from 'react';
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

/** Letters of a name that stand in one line under its time, by the width of the window in the reader's own type. Tried out. */
const lettersIn = (rem: number): number => Math.floor((rem - 10.3) / 0.52) - 3;

/**
 * Least distance in px under a name of a time line that writes times before them, by the name: a long one takes a line more.
 * @param rowPx what is kept between them where a name and its time stand in one row, at the usual size
 */
export function useNameGap(rowPx: number): (name: string) => number {
  const scale = useTextScale();
  const rem = useWidthRem();
  return useCallback(
    (name) => {
      const lines = LINES.find(({ atLeastRem }) => rem >= atLeastRem)?.lines ?? 1;
      const more = lines === 2 && name.length > lettersIn(rem) ? 1 : 0;
      return scale * (lines === 1 ? rowPx : (lines + more) * LINE_PX + BETWEEN_PX);
    },
    [scale, rem, rowPx],
  );
}
