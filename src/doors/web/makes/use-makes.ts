import { useEffect, useMemo, useState } from 'react';
import type { Make } from '../../../make/make.ts';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import type { ListedMake } from './listed-make.ts';
import { listedMakes } from './make-list.ts';
import { fetchMake, isBundled, makeHere } from './make-shelf.ts';
import { ownMakes, type OwnMakes } from './own-makes.ts';

/** The makes somebody wrote, with those of the build: what every list of makes shows. */
export function useMakes(): { readonly listed: readonly ListedMake[]; readonly own: OwnMakes } {
  const { held } = useLog();
  const { book } = useReader();
  const own = useMemo(() => ownMakes(held.streams), [held.streams]);
  const listed = useMemo(() => [...own.makes, ...listedMakes()].map((one) => ({ ...one, facts: book.facts(one.facts) })), [own, book]); // prettier-ignore
  return { listed, own };
}

/** Whole makes as they arrive, and why one did not. */
export interface WholeMakes {
  /** Those asked for that are here, in the order asked. */
  readonly makes: readonly Make[];
  /** Null while all goes well. */
  readonly failed: string | null;
}

/**
 * Whole makes by their ids: one's own at once, those of the build as they are fetched.
 * @param ids by identity: memoise them
 */
export function useWholeMakes(ids: readonly string[]): WholeMakes {
  const { held } = useLog();
  const own = useMemo(() => new Map(ownMakes(held.streams).makes.map(({ make }) => [make.id, make])), [held.streams]);
  const [fetched, setFetched] = useState<ReadonlyMap<string, Make>>(new Map());
  const [failed, setFailed] = useState<string | null>(null);
  useEffect(() => {
    let isWanted = true;
    const fetchOne = async (id: string): Promise<void> => {
      try {
        const make = await fetchMake(id);
        if (isWanted) setFetched((others) => new Map(others).set(id, make));
      } catch (error) {
        if (isWanted) setFailed(error instanceof Error ? error.message : String(error));
      }
    };
    for (const id of ids) if (!own.has(id) && isBundled(id) && makeHere(id) === null) void fetchOne(id);
    return () => {
      isWanted = false;
    };
  }, [ids, own]);
  const makes = useMemo(
    () =>
      ids.flatMap((id) => {
        const make = own.get(id) ?? fetched.get(id) ?? makeHere(id);
        return make === null ? [] : [make];
      }),
    [ids, own, fetched],
  );
  return { makes, failed };
}
