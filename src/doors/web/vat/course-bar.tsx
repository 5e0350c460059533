import type { ReactNode } from 'react';
import type { CourseBar } from './course.ts';

const WIDTH = 1000;
const MIDDLE = 22;

/** The last reading inside its expected half (solid edge) and nine times in ten (dotted edge). The sentence beside it says the same. */
export function CourseBarDrawing({ bar }: { readonly bar: CourseBar }): ReactNode {
  const x = (share: number): number => share * WIDTH;
  return (
    <svg className="course-bar" viewBox={`0 0 ${WIDTH} ${MIDDLE * 2}`} preserveAspectRatio="none" aria-hidden="true">
      <rect
        className="course-most"
        x={x(bar.mostFrom)}
        y={4}
        width={x(bar.mostTo - bar.mostFrom)}
        height={MIDDLE * 2 - 8}
      />
      <rect
        className="course-half"
        x={x(bar.halfFrom)}
        y={4}
        width={x(bar.halfTo - bar.halfFrom)}
        height={MIDDLE * 2 - 8}
      />
      <line className="course-reading" x1={x(bar.at)} x2={x(bar.at)} y1={0} y2={MIDDLE * 2} />
    </svg>
  );
}
