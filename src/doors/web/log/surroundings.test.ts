import { afterEach, describe, expect, it, vi } from 'vitest';
import { browserSurroundings } from './surroundings.ts';

/** Locks of one browser: who asks waits until those before are done. */
function fakeLocks() {
  let turn: Promise<unknown> = Promise.resolve();
  return {
    request: (_name: string, _options: object, work: () => Promise<void>) => (turn = turn.then(work)),
  };
}

/** A page that is in sight or not. */
class FakePage extends EventTarget {
  visibilityState = 'visible';
  turn(state: 'visible' | 'hidden'): void {
    this.visibilityState = state;
    this.dispatchEvent(new Event('visibilitychange'));
  }
}

/** A tab that says when it leads. */
function tab(page: FakePage, name: string, told: string[], signal: AbortSignal): void {
  vi.stubGlobal('document', page);
  browserSurroundings().asLeader(async (term) => {
    told.push(`${name} leads`);
    await new Promise<void>((resolve) => term.addEventListener('abort', () => resolve()));
  }, signal);
}

const moment = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));
afterEach(() => vi.unstubAllGlobals());

describe('the tab that talks to the server', () => {
  it('hands on to the tab in sight when it is put away, and goes on where there is no other', async () => {
    vi.stubGlobal('navigator', { locks: fakeLocks() });
    vi.stubGlobal('BroadcastChannel', class { postMessage = (): void => undefined; addEventListener = (): void => undefined; }); // prettier-ignore
    const [pages, ending, told] = [[new FakePage(), new FakePage()], new AbortController(), [] as string[]] as const;
    const [left, right] = pages;
    if (left === undefined || right === undefined) return;
    tab(left, 'left', told, ending.signal);
    await moment();
    // Alone, it leads on out of sight.
    left.turn('hidden');
    await moment();
    expect(told).toEqual(['left leads', 'left leads']);
    left.turn('visible');
    tab(right, 'right', told, ending.signal);
    vi.stubGlobal('document', left);
    await moment();
    left.turn('hidden');
    await moment();
    expect(told).toEqual(['left leads', 'left leads', 'right leads']);
    ending.abort();
  });
});
