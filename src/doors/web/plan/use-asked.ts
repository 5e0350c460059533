import { useEffect, useState } from 'react';
import { useReader } from '../device/reader.tsx';
import { takeAsked, type AskedPlan } from './asked-plan.ts';

/** What the address asked for as the plan was opened; a question that comes later opens the page anew. */
export function useAsked(nameOf: (makeId: string) => string | null): AskedPlan | null {
  const { say, write, settings, change } = useReader();
  const [asked] = useState(() => takeAsked({ units: write.units, now: Date.now(), nameOf, say, write }));
  const [wanted, setWanted] = useState(asked?.wrong === null ? asked.units : null);
  // Once, as the page is opened: what is chosen later is the reader's own choice.
  useEffect(() => {
    if (wanted === null) return;
    if (wanted !== settings.units) change({ units: wanted });
    setWanted(null);
  }, [wanted, settings.units, change]);
  useEffect(() => {
    const again = (): void => {
      if (location.hash.startsWith('#make=')) location.reload();
    };
    addEventListener('hashchange', again);
    return () => removeEventListener('hashchange', again);
  }, []);
  return asked;
}
