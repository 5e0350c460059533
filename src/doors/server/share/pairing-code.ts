import { createHash, randomInt, timingSafeEqual } from 'node:crypto';
import type { Role } from '../../../record/may-note.ts';

/** Digits of a code: a hundred million of them, of which somebody who guesses gets ten. */
const DIGITS = 8;
export const CODE_LASTS_MS = 10 * 60_000;
export const MOST_WRONG_TRIES = 10;
/** Devices that one code lets in: a class with its teachers. Our own choice. */
export const MOST_LET_IN = 60;

/** The code that stands on the sharing machine's screen now. */
export interface ShownCode {
  readonly code: string;
  readonly role: Role;
  /** Milliseconds UTC. */
  readonly endsAt: number;
}

/**
 * One code at a time. It gives its role to a class of devices while it lasts (they pair by one picture), is followed by
 * another when its time is over or the class is full, and dies of ten wrong tries: then only a person can ask for the next, so
 * that nobody guesses on and on.
 */
export class PairingCode {
  readonly #now: () => number;
  readonly #random: (below: number) => number;
  readonly #listeners = new Set<() => void>();
  #role: Role;
  #shown: ShownCode | null = null;
  #wrong = 0;
  #letIn = 0;

  constructor(input: { readonly role: Role; readonly now: () => number; readonly random?: (below: number) => number }) {
    const { role, now, random = (below) => randomInt(below) } = input;
    this.#role = role;
    this.#now = now;
    this.#random = random;
    this.renew();
  }

  /** The code that counts now; null where it died of wrong tries. */
  shown(): ShownCode | null {
    if (this.#shown !== null && this.#now() >= this.#shown.endsAt) this.#next();
    return this.#shown;
  }

  /** A new code, for the role it had unless another is said; the one before counts no longer. */
  renew(role = this.#role): ShownCode {
    this.#role = role;
    this.#wrong = 0;
    return this.#next();
  }

  /** Wrong tries count on from code to code: whoever waits for the next one wins nothing. */
  #next(): ShownCode {
    this.#letIn = 0;
    this.#shown = {
      code: String(this.#random(10 ** DIGITS)).padStart(DIGITS, '0'),
      role: this.#role,
      endsAt: this.#now() + CODE_LASTS_MS,
    };
    this.#tell();
    return this.#shown;
  }

  /** The role that a code gives; null where it is wrong, over or dead. */
  roleFor(given: string): Role | null {
    const shown = this.shown();
    if (shown === null) return null;
    if (isSame(given, shown.code)) {
      this.#letIn += 1;
      if (this.#letIn >= MOST_LET_IN) this.#next();
      return shown.role;
    }
    this.#wrong += 1;
    if (this.#wrong >= MOST_WRONG_TRIES) {
      this.#shown = null;
      this.#tell();
    }
    return null;
  }

  /** The role that the next code will give. */
  get role(): Role {
    return this.#role;
  }

  /** Calls back when another code counts, or none. */
  hear(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  #tell(): void {
    for (const listener of this.#listeners) listener();
  }
}

/** Compared by hashes of one length, so that neither length nor digits show in the time it takes. */
function isSame(given: string, wanted: string): boolean {
  const hash = (text: string): Buffer => createHash('sha256').update(text).digest();
  return timingSafeEqual(hash(given), hash(wanted));
}
