import type { Asked } from './store-measures.ts';

/** Names of what is asked, as figures tell them. */
export const TOLD: Readonly<Record<Asked, string>> = {
  open: 'open a batch',
  list: 'list the newest',
  older: 'list older ones',
  compare: 'compare four of one make',
  search: 'search, found',
  rareSearch: 'search, hardly or not found',
  note: 'add a note to an old batch',
  start: 'what a device that opens follows',
  exchange: 'what has grown since',
};
