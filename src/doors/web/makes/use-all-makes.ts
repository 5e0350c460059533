import { useEffect, useState } from 'react';
import type { Make } from '../../../make/make.ts';
import { fetchAllMakes } from './make-shelf.ts';

/**
 * Every make of the build, whole; null until they are here. Where they do not arrive, those that did.
 * @param isAsked false while nobody needs them: nothing is fetched
 */
export function useAllMakes(isAsked = true): readonly Make[] | null {
  const [makes, setMakes] = useState<readonly Make[] | null>(null);
  useEffect(() => {
    if (!isAsked) return undefined;
    let isWanted = true;
    void fetchAllMakes().then((all) => (isWanted ? setMakes(all) : undefined));
    return () => {
      isWanted = false;
    };
  }, [isAsked]);
  return makes;
}
