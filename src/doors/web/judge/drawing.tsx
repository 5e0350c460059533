import { useId, type ReactNode } from 'react';
import './drawing.css';

/** Fills that a drawing may use: curd is hatched, whey is the rim's pale blue, milk is left white. */
export interface Fills {
  readonly curd: string;
}

/**
 * One drawing in a box of 200 by 160, one stroke of ink. It carries its own title, so that it is named where it is not
 * seen; beside a caption that says the same, `title` is left out and the drawing is silent.
 */
export function Drawing({
  title,
  children,
}: {
  readonly title?: string;
  readonly children: (fills: Fills) => ReactNode;
}): ReactNode {
  const id = useId();
  const named = title === undefined ? { 'aria-hidden': true as const } : { role: 'img', 'aria-label': title };
  return (
    <svg className="drawing" viewBox="0 0 200 160" {...named}>
      <defs>
        <pattern id={`${id}-curd`} width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V8" stroke="currentColor" strokeWidth="1.3" />
        </pattern>
      </defs>
      {children({ curd: `url(#${id}-curd)` })}
    </svg>
  );
}
