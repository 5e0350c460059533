import { useEffect, useRef, type ReactNode } from 'react';
import './error-summary.css';

/** "There is a problem": the same sentences as beside the fields, on top, taking the focus when it appears. */
export function ErrorSummary({
  title,
  problems,
}: {
  readonly title: string;
  readonly problems: readonly string[];
}): ReactNode {
  const element = useRef<HTMLDivElement>(null);
  useEffect(() => element.current?.focus(), [problems.length]);
  if (problems.length === 0) return null;
  return (
    <div ref={element} className="error-summary" tabIndex={-1} role="alert">
      <h2>{title}</h2>
      <ul>
        {problems.map((problem) => (
          <li key={problem}>{problem}</li>
        ))}
      </ul>
    </div>
  );
}
