import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Grown, StreamState } from '../../store/port.ts';
import { LiveStreams } from './live-streams.ts';

const ash = (last: number): StreamState => ({ streamId: 'batch:ash', last });

/** A store that others write to; it counts how often it is looked at. */
class Shared {
  looks: (number | undefined)[] = [];
  answers: (Grown | Error | Promise<Grown>)[] = [];

  readGrown = ({ since }: { readonly since: number | undefined }): Promise<Grown> => {
    this.looks.push(since);
    const answer = this.answers.shift() ?? { streams: [], mark: this.looks.length };
    return answer instanceof Error ? Promise.reject(answer) : Promise.resolve(answer);
  };
}

describe('the line that tells which make has grown', () => {
  let store: Shared;
  let live: LiveStreams;
  beforeEach(() => {
    vi.useFakeTimers();
    store = new Shared();
    live = new LiveStreams(store, 500);
  });
  afterEach(() => void vi.useRealTimers());

  it('tells what others wrote, once, though the store names it again', async () => {
    store.answers = [1, 2, 3].map((mark) => ({ streams: [ash(mark === 1 ? 4 : 5)], mark }));
    const heard: StreamState[] = [];
    live.hear((state) => heard.push(state));
    await vi.advanceTimersByTimeAsync(1700);
    expect(heard).toEqual([ash(4), ash(5)]);
    expect(store.looks).toEqual([undefined, 1, 2]);
  });

  it('tells at once what this server wrote, and not again when it finds it in the store', async () => {
    store.answers = [{ streams: [ash(6)], mark: 1 }];
    const heard: StreamState[] = [];
    live.hear((state) => heard.push(state));
    live.tell([ash(6)]);
    expect(heard).toEqual([ash(6)]);
    // One that was held up is behind what was told.
    live.tell([ash(5)]);
    await vi.advanceTimersByTimeAsync(600);
    expect(heard).toEqual([ash(6)]);
  });

  it('looks at nothing while nobody listens', async () => {
    live.tell([ash(1)]);
    await vi.advanceTimersByTimeAsync(5000);
    expect(store.looks).toEqual([]);
    const hangUps = [live.hear(() => undefined), live.hear(() => undefined)];
    await vi.advanceTimersByTimeAsync(1100);
    hangUps[0]?.();
    await vi.advanceTimersByTimeAsync(500);
    expect(store.looks).toHaveLength(3);
    hangUps[1]?.();
    hangUps[1]?.();
    await vi.advanceTimersByTimeAsync(5000);
    expect(store.looks).toHaveLength(3);
  });

  it('goes on from where it stood after the store was out of reach', async () => {
    store.answers = [{ streams: [], mark: 7 }, new Error('away'), new Error('away'), { streams: [ash(9)], mark: 8 }];
    const heard: StreamState[] = [];
    live.hear((state) => heard.push(state));
    await vi.advanceTimersByTimeAsync(2100);
    expect(store.looks).toEqual([undefined, 7, 7, 7]);
    expect(heard).toEqual([ash(9)]);
  });

  it('looks in one round only when somebody hangs up and another comes while the store is slow', async () => {
    let answer: (grown: Grown) => void = () => undefined;
    store.answers = [new Promise<Grown>((resolve) => (answer = resolve))];
    const hangUp = live.hear(() => undefined);
    await vi.advanceTimersByTimeAsync(600);
    hangUp();
    const heard: StreamState[] = [];
    live.hear((state) => heard.push(state));
    answer({ streams: [ash(3)], mark: 1 });
    await vi.advanceTimersByTimeAsync(1600);
    // The slow look's own round, and three of the new one.
    expect(store.looks).toEqual([undefined, undefined, 2, 3]);
    expect(heard).toEqual([]);
  });
});
