/// <reference lib="webworker" />
import { learnTogether, type LearnedPot, type Pot } from '../../../forecast/shared-pots.ts';

/** What is asked: pots that share something, and which of them learns. */
export interface PotsQuestion {
  readonly number: number;
  readonly id: string;
  readonly pots: readonly Pot[];
  readonly seed: number;
}

export interface PotsReply {
  readonly number: number;
  readonly learned: LearnedPot | null;
}

/** Learns from the pots beside one, beside the page; of questions that wait, only the newest is answered. */
let newest = 0;

self.addEventListener('message', (event: MessageEvent<PotsQuestion>) => {
  const { number, id, pots, seed } = event.data;
  newest = number;
  setTimeout(() => {
    if (number !== newest) return;
    let learned: LearnedPot | null = null;
    try {
      learned = learnTogether({ pots, seed }).find((pot) => pot.id === id) ?? null;
    } catch {
      // Pots that cannot be learned from leave this one to its own notes, as if it stood alone.
    }
    self.postMessage({ number, learned } satisfies PotsReply);
  }, 0);
});
