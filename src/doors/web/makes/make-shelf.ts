/** The whole makes of this build, each fetched when it is asked for; what lists of them say stands in `make-list.ts`. */
import { parseMake, type Make } from '../../../make/make.ts';

const files = import.meta.glob<unknown>('../../../../makes/*.json', { import: 'default' });

const idOf = (path: string): string => /([a-z0-9-]+)\.json$/.exec(path)?.[1] ?? path;
const loaders = new Map(Object.entries(files).map(([path, load]) => [idOf(path), load]));
const here = new Map<string, Make>();
const coming = new Map<string, Promise<Make>>();

/** True for a make that came with the build. */
export const isBundled = (makeId: string): boolean => loaders.has(makeId);

/** A make of the build that is here already; null where it is not, or where there is none of that id. */
export const makeHere = (makeId: string): Make | null => here.get(makeId) ?? null;

/**
 * Fetches a whole make of the build, once. A fetch that failed is tried again when it is asked for again.
 * @throws where no make of that id came with the build, or where it does not arrive
 */
export async function fetchMake(makeId: string): Promise<Make> {
  const load = loaders.get(makeId);
  if (load === undefined) throw new Error(`There is no make "${makeId}" in this build.`);
  const found = coming.get(makeId) ?? load().then((json) => parseMake(json));
  coming.set(makeId, found);
  try {
    const make = await found;
    here.set(makeId, make);
    return make;
  } catch (error) {
    coming.delete(makeId);
    throw error;
  }
}

/** Every make of the build, whole, easiest first: for what looks through all of them at once. One that does not arrive is left out. */
export async function fetchAllMakes(): Promise<Make[]> {
  const settled = await Promise.allSettled([...loaders.keys()].map(fetchMake));
  return settled
    .flatMap((one) => (one.status === 'fulfilled' ? [one.value] : []))
    .sort((a, b) => a.difficulty - b.difficulty || a.name.localeCompare(b.name));
}
