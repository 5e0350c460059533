import type { BrowserStore } from '../../../store/browser.ts';
import { problemOf } from './not-kept.ts';
import type { ServerLink, StreamPage } from './server-link.ts';

/** Streams of one question. */
const TOGETHER = 100;
/** Streams that may fail by themselves; after more, it is the server that fails. */
const MOST_FAILING = 2;

/** A stream to read on: from a place to where the server says that it ends. */
export interface Wanted {
  readonly streamId: string;
  readonly after: number;
  readonly last: number;
}

/**
 * Reads streams on, many in one question, each as far as it goes.
 * @returns problems that one stream had while the others went on, in words
 * @throws ServerUnreachableError when the server fails, or one stream does whatever else is asked for; the others are taken then
 */
export async function pullStreams(input: {
  readonly store: Pick<BrowserStore, 'takePulled'>;
  readonly server: Pick<ServerLink, 'pages'>;
  readonly wanted: readonly Wanted[];
  readonly now: () => number;
  readonly onTaken: () => void;
}): Promise<string[]> {
  const { store, server, now, onTaken } = input;
  const problems: string[] = [];
  const failures: unknown[] = [];
  let rest = input.wanted;
  let together = TOGETHER;
  while (rest.length > 0) {
    const asked = rest.slice(0, together);
    let pages: readonly StreamPage[];
    try {
      pages = await server.pages(asked);
    } catch (error) {
      if (asked.length === 1) failures.push(error);
      if (failures.length > MOST_FAILING) break;
      // One of them may be what fails: each by itself then.
      rest = asked.length === 1 ? rest.slice(1) : rest;
      together = 1;
      continue;
    }
    if (pages.length === 0) break;
    const answered = new Map(pages.map((page) => [page.streamId, page]));
    const next: Wanted[] = [];
    for (const want of asked) {
      const page = answered.get(want.streamId);
      // There was no room for it.
      if (page === undefined) next.push(want);
      else next.push(...(await took({ store, want, page, now, problems })));
    }
    onTaken();
    rest = [...next, ...rest.slice(asked.length)];
  }
  if (failures.length > 0) throw failures[0];
  return problems;
}

/** Takes one page in; gives what is still to be read of its stream. */
async function took(input: {
  readonly store: Pick<BrowserStore, 'takePulled'>;
  readonly want: Wanted;
  readonly page: StreamPage;
  readonly now: () => number;
  readonly problems: string[];
}): Promise<readonly Wanted[]> {
  const { store, want, page, now, problems } = input;
  const { streamId, after } = want;
  const cursor = page.events.at(-1)?.n;
  if (cursor === undefined || cursor <= after) return [];
  try {
    await store.takePulled({ streamId, events: page.events.map(({ event }) => event), after, cursor, nowMs: now() });
  } catch (error) {
    // Two contents for one id: this stream stops here, loudly; the others go on.
    const words = problemOf(error);
    // A device without room says so once, not of every stream.
    if (!problems.includes(words)) problems.push(words);
    return [];
  }
  const last = Math.min(want.last, page.last);
  return cursor < last ? [{ streamId, after: cursor, last }] : [];
}
