import { z } from 'zod';
import type { ListedStore } from '../../store/batch-list.ts';

/** A device that opens asks for no more than this, and one that does not say how many gets no more. */
const MOST_NEWEST = 1000;
/** Batches beyond the newest so many are old, where a device does not say how many it follows. */
const USUAL_NEWEST = 300;
/**
 * More that have grown are not told one by one: after a whole dairy was brought in, all its streams have. A device is
 * then told as one that opens is. An old batch beyond them comes when it is opened, or grows again.
 */
export const MOST_GROWN = 2000;

export const followedQuery = z.object({
  newest: z.coerce.number().int().min(1).max(MOST_NEWEST).optional(),
  since: z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER).optional(),
});
export const followedAnswer = z.object({
  streams: z.array(z.object({ streamId: z.string(), last: z.int(), isOld: z.boolean().optional() })),
  now: z.int(),
  mark: z.int(),
  storeId: z.string(),
});
type Followed = Omit<z.infer<typeof followedAnswer>, 'now' | 'storeId'>;

/**
 * The streams that a device is to look at, and the mark to ask on from. With `newest`, every stream that is no batch, and
 * so many of the newest batches; with `since`, what has grown since a mark, where batches that are not among the newest
 * are marked as old: a device that does not have them may leave them. With neither, as with the most that `newest` may be.
 * However much the store holds, the work and the answer stay small.
 */
export async function followedStreams(input: {
  readonly store: ListedStore;
  readonly query: z.infer<typeof followedQuery>;
}): Promise<Followed> {
  const { store, query } = input;
  const { newest, since } = query;
  // The mark first: what comes in between is told again the next time.
  const grown = await store.readGrown({ since, most: MOST_GROWN });
  const isCut = grown.streams.length >= MOST_GROWN;
  const count = newest ?? (since === undefined ? MOST_NEWEST : isCut ? USUAL_NEWEST : 0);
  const listed = count === 0 ? [] : await store.batches.newestStreams({ count });
  if (since === undefined) return { streams: listed, mark: grown.mark };
  const known = new Set(listed.map(({ streamId }) => streamId));
  const more = grown.streams.filter(({ streamId }) => !known.has(streamId));
  const among = more.map(({ streamId }) => streamId).filter((id) => id.startsWith('batch:'));
  const isNew = await store.batches.newestOf({ count: newest ?? USUAL_NEWEST, among });
  const streams = more.map((state) => (state.streamId.startsWith('batch:') && !isNew.has(state.streamId) ? { ...state, isOld: true } : state)); // prettier-ignore
  return { streams: [...listed, ...streams], mark: grown.mark };
}
