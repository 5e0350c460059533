import { measuredOffset, type ClockOffset } from '../../../record/clock-offset.ts';
import type { Event } from '../../../record/event.ts';
import type { BrowserStore } from '../../../store/browser.ts';
import type { StreamState } from '../../../store/port.ts';
import { pullStreams, type Wanted } from './pull-streams.ts';
import { ServerFullError, type ServerLink } from './server-link.ts';

/** Events sent in one request; the server takes no more. */
const PUSH_SIZE = 200;
/** And no more than this many characters, unless one event alone has more. */
const PUSH_CHARS = 1_000_000;

/**
 * One round with the server: read every stream on from this device's place, then send what waits. Each step is
 * harmless to repeat, so an answer lost on the way costs nothing.
 *
 * @param input.now  the device's clock, milliseconds UTC
 * @param input.onClock  is told how far that is from the server's, once a round
 * @param input.onTaken  is told after each stream that was read on
 * @param input.since  the mark of the round before, where nothing was left over then
 * @param input.isOpening  true for the first round since the app was opened, which also looks at all it follows
 * @returns problems that one stream had while the others went on, in words; the mark for the next round; whether what waits
 * goes on waiting because the server has no room
 * @throws ServerUnreachableError when there is no server; what was taken in or acknowledged until then stays so
 */
export async function synchronise(
  input: Round,
): Promise<{ readonly problems: string[]; readonly mark: number | null; readonly isServerFull: boolean }> {
  let pulled: Awaited<ReturnType<typeof pull>>;
  try {
    pulled = await pull(input);
  } catch (error) {
    // A stream that cannot be read, whatever the reason, must not keep what was noted here from the server.
    await push(input).catch(() => undefined);
    throw error;
  }
  try {
    await push(input);
    return { ...pulled, isServerFull: false };
  } catch (error) {
    if (error instanceof ServerFullError) return { ...pulled, isServerFull: true };
    throw error;
  }
}

/** Batches that a device follows unasked; older ones come when they are opened. */
const NEWEST = 300;

interface Round {
  readonly since: number | null;
  readonly isOpening: boolean;
  readonly onTaken: () => void;
  readonly store: BrowserStore;
  readonly server: ServerLink;
  readonly now: () => number;
  readonly onClock: (offset: ClockOffset) => void;
}

async function pull({
  store,
  server,
  now,
  onClock,
  since,
  isOpening,
  onTaken,
}: Round): Promise<{ problems: string[]; mark: number | null }> {
  let cursors = await store.cursors();
  const askedAt = now();
  const {
    streams,
    now: serverAt,
    mark = null,
    storeId,
  } = await server.streams({
    ...(since === null || isOpening ? { newest: NEWEST } : {}),
    ...(since === null ? {} : { since }),
  });
  const offset = serverAt === undefined ? null : measuredOffset({ askedAt, serverAt, answeredAt: now() });
  if (offset !== null) onClock(offset);
  // Where only what has grown was asked for, the list is asked for anew next time.
  let isLess = false;
  const before = await store.serverStore();
  // Another store stands where this device read before: places mean other events there.
  const isOther = storeId !== undefined && before !== null && before !== storeId;
  if (isOther || hasLess({ streams, cursors, isNewest: since === null || isOpening })) {
    await store.startOver();
    cursors = new Map();
    isLess = true;
  }
  // Only now: a device that stops in between starts over once more.
  if (storeId !== undefined && storeId !== before) await store.keepServerStore(storeId);
  const wanted: Wanted[] = [];
  for (const { streamId, last, isOld = false } of streams) {
    const after = cursors.get(streamId) ?? 0;
    if (after >= last) continue;
    // What is on the device goes on, also where the device itself wrote it and never had to read it.
    if (isOld && after === 0 && (await store.streamState(streamId)).last === 0) continue;
    wanted.push({ streamId, after, last });
  }
  const problems = await pullStreams({ store, server, wanted, now, onTaken });
  // Of a stream that stopped, the next round hears again.
  return { problems, mark: isLess ? null : problems.length === 0 ? mark : since };
}

/**
 * True where the server has fewer events of a stream than it once showed: places never shrink by themselves, so an older backup was
 * put in its place by hand, and what came after it is to be had from the devices alone. What `vatside restore` puts there says so itself.
 */
function hasLess(input: {
  readonly streams: readonly StreamState[];
  readonly cursors: ReadonlyMap<string, number>;
  /** The list holds every stream that is no batch, and the newest batches; else only what has grown. */
  readonly isNewest: boolean;
}): boolean {
  const { streams, cursors, isNewest } = input;
  const last = new Map(streams.map((stream) => [stream.streamId, stream.last]));
  const isBatch = (streamId: string): boolean => streamId.startsWith('batch:');
  const hasAllBatches = streams.filter(({ streamId }) => isBatch(streamId)).length < NEWEST;
  return [...cursors].some(([streamId, read]) => {
    const there = last.get(streamId);
    return there === undefined ? isNewest && (hasAllBatches || !isBatch(streamId)) : read > there;
  });
}

async function push({ store, server }: Round): Promise<void> {
  for (;;) {
    const waiting = fitting(await store.outbox({ limit: PUSH_SIZE }));
    if (waiting.length === 0) return;
    const answers = await server.push(waiting);
    const sent = new Set(waiting.map((event) => event.id));
    const taken = answers.filter(({ id, state }) => sent.has(id) && state !== 'refused').map(({ id }) => id);
    const refused = answers
      .filter(({ id, state }) => sent.has(id) && state === 'refused')
      .map(({ id, reason }) => ({ id, reason: reason ?? 'refused' }));
    // Nothing answered for: stop instead of sending the same for ever.
    if (taken.length + refused.length === 0) return;
    await store.acknowledge(taken);
    if (refused.length > 0) await store.setAside(refused);
  }
}

/** As many of the oldest events as one request holds. */
function fitting(events: readonly Event[]): Event[] {
  let chars = 0;
  return events.filter((event, index) => {
    chars += JSON.stringify(event).length;
    return index === 0 || chars <= PUSH_CHARS;
  });
}
