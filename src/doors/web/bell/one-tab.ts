/**
 * One device, one bell: of all tabs that show a pot, one rings. With Web Locks it is the one that was last in sight and may
 * sound; the others stand in line and take over when it closes. Without locks (plain HTTP) the tabs keep to a note in the
 * storage that they share, and the one last in sight writes it.
 */
export interface OneTab {
  /** Whether this tab is the one that rings. */
  readonly rings: () => boolean;
  readonly subscribe: (listener: () => void) => () => void;
  /** This tab is in sight and may sound: it takes the bell over. */
  readonly take: () => void;
  readonly close: () => void;
}

/** A note that nobody has renewed for so long was left by a tab that is gone. Our own choice. */
const GONE_MS = 5_000;
const RENEW_MS = 1_500;

/** Begins to stand in line for the bell of this stream. */
export function oneTab(streamId: string): OneTab {
  const name = `vatside.bell-tab.${streamId}`;
  return 'locks' in navigator ? byLock(name) : byNote(name);
}

function told(): { readonly is: (next: boolean) => void } & Pick<OneTab, 'rings' | 'subscribe'> {
  const listeners = new Set<() => void>();
  let rings = false;
  return {
    rings: () => rings,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    is(next) {
      if (next === rings) return;
      rings = next;
      for (const listener of listeners) listener();
    },
  };
}

function byLock(name: string): OneTab {
  const { is, rings, subscribe } = told();
  const ending = new AbortController();
  let current: symbol | null = null;
  let isTaking = false;
  const hold = async (options: LockOptions): Promise<void> => {
    const own = Symbol(name);
    try {
      await navigator.locks.request(name, options, () => {
        current = own;
        is(true);
        return new Promise<void>((resolve) => ending.signal.addEventListener('abort', () => resolve()));
      });
    } catch {
      // Taken over by the tab that is in sight now, or given up: in both cases nothing is held here any more.
    }
    if (current === own) is(false);
  };
  const stand = async (): Promise<void> => {
    while (!ending.signal.aborted) await hold({ signal: ending.signal });
  };
  void stand();
  return {
    rings,
    subscribe,
    take() {
      if (rings() || isTaking) return;
      isTaking = true;
      // The place in line stays: should another tab take over in turn, this one still comes after it.
      void hold({ steal: true }).finally(() => (isTaking = false));
    },
    close() {
      ending.abort();
      is(false);
    },
  };
}

function byNote(name: string): OneTab {
  const { is, rings, subscribe } = told();
  const own = crypto.getRandomValues(new Uint32Array(2)).join('.');
  const write = (): void => {
    try {
      localStorage.setItem(name, `${own} ${Date.now()}`);
    } catch {
      // Without storage there is nothing shared to keep to: this tab rings.
    }
    is(true);
  };
  const look = (): void => {
    const [by, at] = (localStorage.getItem(name) ?? '').split(' ');
    const age = Date.now() - Number(at);
    if (by === own || by === undefined || by === '' || !(Math.abs(age) < GONE_MS)) write();
    else is(false);
  };
  look();
  const timer = setInterval(look, RENEW_MS);
  addEventListener('storage', look);
  return {
    rings,
    subscribe,
    take: write,
    close() {
      clearInterval(timer);
      removeEventListener('storage', look);
      if (rings()) localStorage.removeItem(name);
      is(false);
    },
  };
}
