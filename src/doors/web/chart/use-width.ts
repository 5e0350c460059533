import { useEffect, useRef, useState, type RefObject } from 'react';

/** The room a drawing has, so that its letters keep their size whatever the screen. */
export function useWidth<E extends HTMLElement>(
  firstWidthPx: number,
  firstHeightPx = 0,
): { readonly ref: RefObject<E | null>; readonly widthPx: number; readonly heightPx: number } {
  const ref = useRef<E>(null);
  const [size, setSize] = useState({ widthPx: firstWidthPx, heightPx: firstHeightPx });
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry === undefined || entry.contentRect.width === 0) return;
      const { width, height } = entry.contentRect;
      setSize({ widthPx: Math.round(width), heightPx: Math.round(height) });
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return { ref, ...size };
}
