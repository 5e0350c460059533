import { useCallback, useMemo, useState } from 'react';
import type { UnitSystem } from '../../../exchange/written.ts';
import { cupInUnits, cupSchema, freshCup, type CupTest } from './cup-test.ts';

const KEY = 'vatside.cup-test';

function stored(): CupTest | null {
  const text = localStorage.getItem(KEY);
  if (text === null) return null;
  try {
    return cupSchema.parse(JSON.parse(text));
  } catch {
    return null;
  }
}

/** The cup test on this device: kept with every change, so that a reload goes on with the same clock. */
export function useCup(input: { readonly units: UnitSystem; readonly bottleName: string }): {
  readonly cup: CupTest;
  readonly put: (cup: CupTest) => void;
} {
  const { units, bottleName } = input;
  const [kept, setKept] = useState<CupTest>(() => stored() ?? freshCup({ units, bottleName }));
  const put = useCallback((cup: CupTest) => {
    setKept(cup);
    localStorage.setItem(KEY, JSON.stringify(cup));
  }, []);
  return { cup: useMemo(() => cupInUnits({ cup: kept, units }), [kept, units]), put };
}
