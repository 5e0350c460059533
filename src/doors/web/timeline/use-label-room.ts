import type { RefObject } from 'react';
import { useWidth } from '../chart/use-width.ts';
import { useMedia } from '../look/use-media.ts';
import { NARROW } from '../vat/vat-card.tsx';
import { linesOf } from './label-lines.ts';
import type { TimelineStep } from './timeline-layout.ts';

/** What stands left of the names: the scale, the blocks and two lanes of whiskers, px (as drawn in `timeline.tsx`). */
const BESIDE_PX = 130;
/** Beside each other on a wide screen; on a narrow one the name stands under its time, in lines of this height (`whole.css`). */
const ONE_ROW_PX = 26;
const TEXT_REM = 1.0625;
const LINE = 1.2;
const APART_PX = 6;
/** A letter's mean width in ems, taken wide so that no name runs into the next. Our own choice. */
const LETTER = 0.53;

/** Room for the names of a time line: on a phone each as high as its wrapped words. */
export function useLabelRoom(): {
  readonly ref: RefObject<HTMLDivElement | null>;
  readonly labelGapPx: number | ((step: TimelineStep) => number);
} {
  const { ref, widthPx } = useWidth<HTMLDivElement>(358);
  const isNarrow = useMedia(NARROW);
  if (!isNarrow) return { ref, labelGapPx: ONE_ROW_PX };
  const textPx = TEXT_REM * Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  const charsPerLine = (widthPx - BESIDE_PX) / (LETTER * textPx);
  return {
    ref,
    labelGapPx: ({ number, name }) =>
      (1 + linesOf({ text: `${number} ${name}`, charsPerLine })) * LINE * textPx + APART_PX,
  };
}
