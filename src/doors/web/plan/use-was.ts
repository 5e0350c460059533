import { useEffect, useRef, useState } from 'react';

/** How long an old value stays, struck, beside the new one. */
const SHOWN_MS = 8000;

/**
 * What a text was before the last change of its cause, for eight seconds. The refining of one and the same forecast
 * is no change: only another `cause` is.
 * @param text as shown now
 * @param cause identity of what was asked; a new one starts the eight seconds
 * @param settled true once `text` answers `cause`
 */
export function useWas(text: string, cause: unknown, settled: boolean): string | null {
  const shown = useRef({ text, cause });
  const [was, setWas] = useState<{ readonly before: string } | null>(null);
  useEffect(() => {
    if (!settled) return;
    const last = shown.current;
    shown.current = { text, cause };
    if (last.cause === cause || last.text === text || last.text === '') return;
    setWas({ before: last.text });
  }, [text, cause, settled]);
  useEffect(() => {
    if (was === null) return;
    const timer = setTimeout(() => setWas(null), SHOWN_MS);
    return () => clearTimeout(timer);
  }, [was]);
  return was !== null && was.before !== text ? was.before : null;
}
