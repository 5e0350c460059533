import { useEffect, useRef, useState } from 'react';
import { useReader } from '../device/reader.tsx';
import { takeAsked, type AskedPlan } from './asked-plan.ts';

/** What the address asked for as the plan was opened; a question that comes later opens the page anew. */
export function useAsked(nameOf: (makeId: string) => string | null): AskedPlan | null {
  const { say, write, settings, change } = useReader();
  const [asked] = useState(() => takeAsked({ units: write.units, now: Date.now(), nameOf, say, write }));
  // Once, as the page is opened: what is chosen later is the reader's own choice.
  const wanted = useRef(asked?.wrong === null ? asked.units : null);
  useEffect(() => {
    const units = wanted.current;
    wanted.current = null;
    if (units !== null && units !== settings.units) change({ units });
  }, [settings.units, change]);
  useEffect(() => {
    const again = (): void => {
      if (location.hash.startsWith('#make=')) location.reload();
    };
    addEventListener('hashchange', again);
    return () => removeEventListener('hashchange', again);
  }, []);
  return asked;
}
