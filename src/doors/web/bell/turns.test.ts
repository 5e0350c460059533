import { describe, expect, it } from 'vitest';
import { turns } from './turns.ts';

/** A clock that is moved by hand. */
function bench() {
  let nowMs = 0;
  const waiting: { at: number; run: () => void }[] = [];
  const heard: [string, number][] = [];
  const inTurn = turns({ nowMs: () => nowMs, later: (run, ms) => void waiting.push({ at: nowMs + ms, run }) });
  const ask = (name: string, isAct: boolean): void =>
    inTurn({ isAct, isSpoken: true }, () => void heard.push([name, nowMs]));
  const goTo = (endMs: number): void => {
    for (;;) {
      const next = waiting.toSorted((a, b) => a.at - b.at)[0];
      if (next === undefined || next.at > endMs) break;
      waiting.splice(waiting.indexOf(next), 1);
      nowMs = next.at;
      next.run();
    }
    nowMs = endMs;
  };
  return { ask, goTo, heard };
}

describe('six pots beside one tablet', () => {
  it('are called one after the other, in the order of coming', () => {
    const { ask, goTo, heard } = bench();
    for (const pot of ['Ash', 'Birch', 'Cedar']) ask(pot, false);
    goTo(60_000);
    expect(heard).toEqual([['Ash', 0], ['Birch', 6000], ['Cedar', 12_000]]); // prettier-ignore
  });

  it('never keep an Act waiting for due things that wait themselves', () => {
    const { ask, goTo, heard } = bench();
    for (const pot of ['Ash', 'Birch', 'Cedar', 'Elm']) ask(pot, false);
    goTo(500);
    ask('Act', true);
    goTo(60_000);
    expect(heard.slice(0, 2)).toEqual([['Ash', 0], ['Act', 1500]]); // prettier-ignore
    expect(heard.map(([name]) => name)).toEqual(['Ash', 'Act', 'Birch', 'Cedar', 'Elm']);
  });
});
