import type { JudgementName } from '../../../make/judgement.ts';
import type { Entry } from '../vat/actions.ts';

/**
 * How loudly a call asks.
 * - `act`: something is going wrong; sounds until it is answered.
 * - `due`: a planned thing is due; sounds once.
 * - `note`: worth knowing; never sounds.
 */
export type CallClass = 'act' | 'due' | 'note';

/** One answer that a call offers. */
export interface CallAnswer {
  /** Kept in the record: `heard`, `later`, `done`, `false`, `look`. */
  readonly id: string;
  readonly label: string;
  /** What it notes beside the answer itself; times are those of the answer. */
  readonly notes: readonly Entry[];
  /** Put off: the call comes back after so many minutes. */
  readonly againMin: number | null;
}

/** Something that the maker is called for: what is seen, what to do, by when, and what it costs if it is left. */
export interface Call {
  /** From step, kind and cause, never from the time; its stream is the batch. The same on every device. */
  readonly id: string;
  readonly class: CallClass;
  /** Calls of one class and one cause do not sound twice within three minutes. */
  readonly cause: string;
  /** Milliseconds UTC. */
  readonly dueAt: number;
  /** True where the record alone says when; a foreseen time moves with each forecast until it has come. */
  readonly isExact: boolean;
  /** When it was foreseen at the opening: for a device that was not there when it came. */
  readonly missedAt?: number;
  /** The maker set it, or put it off: it sounds at its time, however much else has sounded. */
  readonly isAsked?: boolean;
  /** The judgement that it asks for, where one does. */
  readonly look?: JudgementName;
  readonly seen: string;
  readonly what: string;
  /** Null where a due thing has no later limit. */
  readonly by: string | null;
  readonly cost: string | null;
  /** After the pot's name: verb and number. */
  readonly spoken: string;
  readonly answers: readonly CallAnswer[];
}
