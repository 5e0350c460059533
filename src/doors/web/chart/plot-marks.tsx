import type { ReactNode } from 'react';

/** From so many on, discs with whiskers would hide each other: a probe's values are small dots. Our own choice. */
export const MANY_READINGS = 40;

/** One value as it was read: the disc, its instrument's error, what was expected of it, a slash where it is doubted. */
export function Reading(mark: {
  readonly x: number;
  readonly y: number;
  readonly errorTop: number;
  readonly errorBottom: number;
  readonly expectedY: number | null;
  readonly suspect: boolean;
  /** One of so many that only the dot is drawn. */
  readonly isOfMany: boolean;
}): ReactNode {
  if (mark.isOfMany && !mark.suspect) return <circle className="plot-dense" cx={mark.x} cy={mark.y} r={3} />;
  return (
    <g>
      {mark.expectedY === null ? null : (
        <line className="plot-expected" x1={mark.x - 14} x2={mark.x + 14} y1={mark.expectedY} y2={mark.expectedY} />
      )}
      <line className="plot-error" x1={mark.x} x2={mark.x} y1={mark.errorTop} y2={mark.errorBottom} />
      <circle className="plot-reading" cx={mark.x} cy={mark.y} r={7} />
      {mark.suspect ? (
        <line className="plot-slash" x1={mark.x - 9} x2={mark.x + 9} y1={mark.y + 9} y2={mark.y - 9} />
      ) : null}
    </g>
  );
}

const LABEL_ROOM = 104;

/** Which of these places, from the left, can carry a word without lying on the one before. */
export function spaced(places: readonly number[]): ReadonlySet<number> {
  const chosen = new Set<number>();
  let freeFrom = -Infinity;
  places.forEach((place, index) => {
    if (place < freeFrom) return;
    chosen.add(index);
    freeFrom = place + LABEL_ROOM;
  });
  return chosen;
}

/** Beside the window where there is room before it, else above its upper line. */
export function AimLabel({
  x,
  width,
  top,
  bottom,
  label,
  scale,
}: {
  readonly x: number;
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
  readonly label: string;
  /** How much larger than usual the reader's text is. */
  readonly scale: number;
}): ReactNode {
  const roomPx = label.length * 9 * scale;
  const isBefore = x > roomPx;
  const isTight = !isBefore && x + roomPx > width;
  return (
    <text
      className="plot-aim-label"
      x={isBefore ? x - 8 : isTight ? width - 2 : Math.max(4, x)}
      y={isBefore ? (top + bottom) / 2 : top - 6}
      textAnchor={isBefore || isTight ? 'end' : 'start'}
      dominantBaseline={isBefore ? 'central' : 'auto'}
    >
      {label}
    </text>
  );
}

/** What the band's edges mean, written at its right-hand end. */
export function EndLabels({
  ends,
  x,
  words,
}: {
  readonly ends: { readonly high: number; readonly middle: number; readonly low: number };
  readonly x: number;
  readonly words: { readonly above: string; readonly below: string; readonly half: string };
}): ReactNode {
  const roomy = ends.low - ends.high > 56;
  return (
    <g className="plot-label">
      <text x={x} y={ends.high} dominantBaseline="central">
        {words.above}
      </text>
      {roomy ? (
        <text x={x} y={(ends.high + ends.low) / 2} dominantBaseline="central">
          {words.half}
        </text>
      ) : null}
      <text x={x} y={roomy ? ends.low : ends.high + 20} dominantBaseline="central">
        {words.below}
      </text>
    </g>
  );
}
