/** The makes that somebody wrote or changed on this device or one that shares its log. */
import { makeFacts } from '../../../make/make-facts.ts';
import { parseMake, type Make } from '../../../make/make.ts';
import { InputError, type Problem } from '../../../numbers/validity.ts';
import type { Event } from '../../../record/event.ts';
import { foldSavedMake, type SavedMake } from '../../../record/saved-make.ts';
import type { ListedMake } from './listed-make.ts';

export interface OwnMake extends ListedMake {
  readonly make: Make;
  readonly saved: SavedMake;
}

/** A make of one's own that this program cannot read: it is kept, and told of. */
export interface UnreadMake {
  readonly streamId: string;
  readonly problems: readonly Problem[];
}

export interface OwnMakes {
  readonly makes: readonly OwnMake[];
  readonly unread: readonly UnreadMake[];
}

const read = new WeakMap<readonly Event[], OwnMake | UnreadMake | null>();

/** Every make of one's own in a log, each read once for as long as its stream does not grow. */
export function ownMakes(streams: ReadonlyMap<string, readonly Event[]>): OwnMakes {
  const all = [...streams].flatMap(([streamId, events]) => {
    if (!streamId.startsWith('make:')) return [];
    const known = read.get(events);
    const own = known === undefined ? ownMake(events) : known;
    read.set(events, own);
    return own === null ? [] : [own];
  });
  return {
    makes: all.flatMap((one) => ('make' in one ? [one] : [])),
    unread: all.flatMap((one) => ('make' in one ? [] : [one])),
  };
}

function ownMake(events: readonly Event[]): OwnMake | UnreadMake | null {
  const saved = foldSavedMake(events);
  if (saved.current === null) return null;
  try {
    const make = parseMake(saved.current.make);
    return { make, saved, facts: makeFacts(make), days: [] };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { streamId: saved.streamId, problems: error.problems };
  }
}
