/**
 * One device, one bell: of all tabs that show a pot, one rings. With Web Locks it is the one that was last in sight and may
 * sound; the others stand in line and take over when it closes. Without locks (plain HTTP) the tabs keep to a note in the
 * storage that they share, and the one last in sight writes it.
 */
export interface OneTab {
  /** Whether this tab is the one that rings; only while somebody listens. */
  readonly rings: () => boolean;
  /** Stands in line from the first listener to the last. */
  readonly subscribe: (listener: () => void) => () => void;
  /** This tab is in sight and may sound: it takes the bell over. */
  readonly take: () => void;
}

/** A place in line, told of each change. */
interface Place {
  readonly rings: () => boolean;
  readonly take: () => void;
  readonly leave: () => void;
}

/** A note that nobody has renewed for so long was left by a tab that is gone. Our own choice. */
const GONE_MS = 5_000;
const RENEW_MS = 1_500;

const tabs = new Map<string, OneTab>();

/** The bell of this stream as this tab shares it with the device's others. */
export function oneTab(streamId: string): OneTab {
  const known = tabs.get(streamId) ?? shared(`vatside.bell-tab.${streamId}`);
  tabs.set(streamId, known);
  return known;
}

function shared(name: string): OneTab {
  const listeners = new Set<() => void>();
  let place: Place | null = null;
  const tell = (): void => {
    for (const listener of listeners) listener();
  };
  return {
    rings: () => place?.rings() ?? false,
    take: () => place?.take(),
    subscribe(listener) {
      listeners.add(listener);
      place ??= 'locks' in navigator ? byLock(name, tell) : byNote(name, tell);
      return () => {
        listeners.delete(listener);
        if (listeners.size > 0) return;
        place?.leave();
        place = null;
      };
    },
  };
}

/** Whether it rings, told when it changes. */
function flag(tell: () => void): { readonly rings: () => boolean; readonly become: (next: boolean) => void } {
  let rings = false;
  return {
    rings: () => rings,
    become(next) {
      if (next === rings) return;
      rings = next;
      tell();
    },
  };
}

function byLock(name: string, tell: () => void): Place {
  const { rings, become } = flag(tell);
  const ending = new AbortController();
  let current: symbol | null = null;
  let isTaking = false;
  const hold = async (options: LockOptions): Promise<void> => {
    const own = Symbol(name);
    try {
      await navigator.locks.request(name, options, () => {
        current = own;
        become(true);
        return new Promise<void>((resolve) => ending.signal.addEventListener('abort', () => resolve()));
      });
    } catch {
      // Taken over by the tab that is in sight now, or given up: in both cases nothing is held here any more.
    }
    if (current === own) become(false);
  };
  const stand = async (): Promise<void> => {
    while (!ending.signal.aborted) await hold({ signal: ending.signal });
  };
  void stand();
  return {
    rings,
    take() {
      if (rings() || isTaking) return;
      isTaking = true;
      // The place in line stays: should another tab take over in turn, this one still comes after it.
      void hold({ steal: true }).finally(() => (isTaking = false));
    },
    leave() {
      ending.abort();
      become(false);
    },
  };
}

function byNote(name: string, tell: () => void): Place {
  const { rings, become } = flag(tell);
  const own = crypto.getRandomValues(new Uint32Array(2)).join('.');
  const write = (): void => {
    try {
      localStorage.setItem(name, `${own} ${Date.now()}`);
    } catch {
      // Without storage there is nothing shared to keep to: this tab rings.
    }
    become(true);
  };
  const look = (): void => {
    const [by, at] = (localStorage.getItem(name) ?? '').split(' ');
    const age = Date.now() - Number(at);
    if (by === own || by === undefined || by === '' || !(Math.abs(age) < GONE_MS)) write();
    else become(false);
  };
  look();
  const timer = setInterval(look, RENEW_MS);
  addEventListener('storage', look);
  return {
    rings,
    take: write,
    leave() {
      clearInterval(timer);
      removeEventListener('storage', look);
      if (rings()) localStorage.removeItem(name);
      become(false);
    },
  };
}
