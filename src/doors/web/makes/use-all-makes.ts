import { useEffect, useState } from 'react';
import type { Make } from '../../../make/make.ts';
import { fetchAllMakes } from './make-shelf.ts';

/** Every make of the build, whole; null until they are here. Where they do not arrive, those that did. */
export function useAllMakes(): readonly Make[] | null {
  const [makes, setMakes] = useState<readonly Make[] | null>(null);
  useEffect(() => {
    let isWanted = true;
    void fetchAllMakes().then((all) => (isWanted ? setMakes(all) : undefined));
    return () => {
      isWanted = false;
    };
  }, []);
  return makes;
}
