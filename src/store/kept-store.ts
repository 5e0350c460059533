import type { SharedStore } from './access.ts';
import type { ListedStore } from './batch-list.ts';

/** A store as a server keeps it: its events, the list of its batches, and which devices may ask. */
export type KeptStore = SharedStore & ListedStore;
