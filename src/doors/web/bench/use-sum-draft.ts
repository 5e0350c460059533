import { useCallback, useEffect, useMemo, useState } from 'react';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { SumField } from '../../../exchange/told/field-shapes.ts';
import { draftOfLink, exampleDraft, inUnits, linkOf, type SumDraft } from './sum-draft.ts';

const KEY = 'vatside.bench.';
const LINK_AFTER_MS = 250; // browsers limit how often an address may change

/**
 * The draft of one sum: from the link if it carries one, else as this device was left, else the worked example. What is
 * typed goes into the address and onto the device, so that a reload loses nothing and the link can be sent.
 */
export function useSumDraft(input: {
  readonly name: string;
  readonly fields: readonly SumField[];
  readonly example: unknown;
  readonly units: UnitSystem;
}): { readonly draft: SumDraft; readonly change: (draft: SumDraft) => void; readonly startOver: () => void } {
  const { name, fields, example, units } = input;
  const [kept, setKept] = useState<SumDraft | null>(() => {
    const linked = draftOfLink({ query: location.search, fields });
    if (linked !== null) return linked;
    const stored = localStorage.getItem(KEY + name);
    return stored === null ? null : draftOfLink({ query: stored, fields });
  });
  const draft = useMemo(
    () => (kept === null ? exampleDraft({ example, units }) : inUnits({ draft: kept, units })),
    [kept, example, units],
  );
  useEffect(() => {
    const query = kept === null ? '' : linkOf(kept);
    const timer = setTimeout(() => {
      if (location.search.slice(1) === query) return;
      history.replaceState(history.state, '', `${location.pathname}${query === '' ? '' : `?${query}`}`);
    }, LINK_AFTER_MS);
    return () => clearTimeout(timer);
  }, [kept]);
  const change = useCallback(
    (next: SumDraft) => {
      setKept(next);
      localStorage.setItem(KEY + name, linkOf(next));
    },
    [name],
  );
  const startOver = useCallback(() => {
    setKept(null);
    localStorage.removeItem(KEY + name);
  }, [name]);
  return { draft, change, startOver };
}
