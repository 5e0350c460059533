import { ROLES } from '../../../record/may-note.ts';
import type { Access } from './event-log.ts';

/** What the log needs from the browser around it; tests give their own. */
export interface Surroundings {
  readonly now: () => number;
  readonly randomBytes: (count: number) => Uint8Array;
  readonly ask: (path: string, init?: RequestInit) => Promise<Response>;
  /** Calls back whenever the server says that a stream has grown, and when its line opens. Returns the way to hang up. */
  readonly listen: (heard: () => void) => () => void;
  /** Tells the other tabs of this browser that the log changed, and hears of their changes. */
  readonly tabs: { readonly tell: () => void; readonly hear: (heard: () => void) => () => void };
  /**
   * Runs `lead` in one tab at a time, until its term ends or the tab does. A tab that is put out of sight hands on to one that waits:
   * a phone may stop it there, and it would lead nobody. Where none waits, its next term begins at once. `signal` ends it for good.
   */
  readonly asLeader: (lead: (term: AbortSignal) => Promise<void>, signal: AbortSignal) => void;
  /** Calls back when it is worth trying again: network back, page shown, half a minute gone. */
  readonly whenWorthTrying: (retry: () => void) => () => void;
  /** What the server let this device do when it was last asked; null where nothing is known. Left out, nothing is kept. */
  readonly access?: { readonly read: () => Access | null; readonly write: (access: Access) => void };
  /** Asks the browser not to clear the log away. */
  readonly keepStorage: () => void;
}

const RETRY_MS = 30_000;
const TABS = 'vatside-log';
const ACCESS_KEY = 'vatside.access';

/** The access that a word stands for; null for any other word. */
export const accessOf = (word: string | null): Access | null => [...ROLES, 'none' as const].find((one) => one === word) ?? null; // prettier-ignore

/** The real browser. What plain HTTP takes away (locks, storage promises) is simply left out there. */
export function browserSurroundings(): Surroundings {
  return {
    now: () => Date.now(),
    randomBytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
    ask: (path, init) => fetch(path, init),
    listen(heard) {
      let line: EventSource;
      let again: ReturnType<typeof setTimeout> | undefined;
      const open = (): void => {
        line = new EventSource('/api/live');
        line.addEventListener('open', heard);
        line.addEventListener('stream', heard);
        line.addEventListener('error', () => {
          heard();
          // A browser comes back by itself after a broken line, but not after a refusal.
          if (line.readyState === EventSource.CLOSED) again = setTimeout(open, RETRY_MS);
        });
      };
      open();
      return () => {
        clearTimeout(again);
        line.close();
      };
    },
    tabs: tabChannel(),
    asLeader(lead, signal) {
      if (!('locks' in navigator)) {
        void lead(signal);
        return;
      }
      const terms = async (): Promise<void> => {
        while (!signal.aborted)
          await navigator.locks.request(`${TABS}-leader`, { signal }, () => lead(untilHidden(signal)));
      };
      terms().catch((error: unknown) => {
        if (!signal.aborted) console.warn('No lock for synchronising.', error);
      });
    },
    whenWorthTrying(retry) {
      const timer = setInterval(retry, RETRY_MS);
      const shown = (): void => {
        if (document.visibilityState === 'visible') retry();
      };
      addEventListener('online', retry);
      document.addEventListener('visibilitychange', shown);
      return () => {
        clearInterval(timer);
        removeEventListener('online', retry);
        document.removeEventListener('visibilitychange', shown);
      };
    },
    access: {
      read: () => accessOf(localStorage.getItem(ACCESS_KEY)),
      write: (access) => localStorage.setItem(ACCESS_KEY, access),
    },
    keepStorage() {
      if ('storage' in navigator) void navigator.storage.persist();
    },
  };
}

/** Ends when this tab is put out of sight, or with `signal`. */
function untilHidden(signal: AbortSignal): AbortSignal {
  const term = new AbortController();
  const end = (): void => {
    if (!signal.aborted && document.visibilityState !== 'hidden') return;
    document.removeEventListener('visibilitychange', end);
    signal.removeEventListener('abort', end);
    term.abort();
  };
  document.addEventListener('visibilitychange', end);
  signal.addEventListener('abort', end);
  return term.signal;
}

function tabChannel(): Surroundings['tabs'] {
  const channel = new BroadcastChannel(TABS);
  const send = channel.postMessage.bind(channel);
  return {
    tell: () => send('changed'),
    hear(heard) {
      channel.addEventListener('message', heard);
      return () => {
        channel.removeEventListener('message', heard);
        channel.close();
      };
    },
  };
}
