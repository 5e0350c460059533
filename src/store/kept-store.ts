import type { SharedStore } from './access.ts';
import type { ListedStore } from './batch-list.ts';
import type { NamedStore } from './identity.ts';

/** A store as the routes of a server need it: its events, the list of its batches, and which store it is. */
export type ServedStore = ListedStore & NamedStore;

/** A store as a server keeps it: that, and which devices may ask. */
export type KeptStore = SharedStore & ServedStore;
