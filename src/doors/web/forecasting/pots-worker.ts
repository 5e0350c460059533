/// <reference lib="webworker" />
import { learnTogether, type LearnedPot, type Pot } from '../../../forecast/shared-pots.ts';

/** What is asked: pots that share something, and which of them learns; no id where all are wanted. */
export interface PotsQuestion {
  readonly number: number;
  readonly id: string | null;
  readonly pots: readonly Pot[];
  readonly seed: number;
}

export interface PotsReply {
  readonly number: number;
  readonly learned: LearnedPot | null;
  /** What each of them has learned, where no one pot was asked for. */
  readonly all: readonly LearnedPot[];
}

/** Learns from the pots beside one, beside the page; of questions that wait, only the newest is answered. */
let newest = 0;

self.addEventListener('message', (event: MessageEvent<PotsQuestion>) => {
  const { number, id, pots, seed } = event.data;
  newest = number;
  setTimeout(() => {
    if (number !== newest) return;
    let all: readonly LearnedPot[] = [];
    try {
      all = learnTogether({ pots, seed });
    } catch {
      // Pots that cannot be learned from leave this one to its own notes, as if it stood alone.
    }
    const learned = all.find((pot) => pot.id === id) ?? null;
    self.postMessage({ number, learned, all: id === null ? all : [] } satisfies PotsReply);
  }, 0);
});
