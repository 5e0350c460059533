import { useLayoutEffect, useRef, useState } from 'react';

/** The same function at every drawing, doing what the one of the last drawing does: for parts that are drawn only when they change. */
export function useSteady<Asked extends readonly unknown[], Answer>(
  act: (...asked: Asked) => Answer,
): (...asked: Asked) => Answer {
  const latest = useRef(act);
  useLayoutEffect(() => {
    latest.current = act;
  });
  const [steady] = useState(
    () =>
      (...asked: Asked): Answer =>
        latest.current(...asked),
  );
  return steady;
}
