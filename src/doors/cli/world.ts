/** All that a command touches of the machine, so that tests can stand in for it. */
export interface World {
  readonly argv: readonly string[];
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** What is piped in; null where a person sits at the keyboard. */
  readonly stdin: () => Promise<string> | null;
  /** Text of a file; throws as Node does. */
  readonly readFile: (path: string) => string;
  readonly now: () => number;
  /** The locale that the machine names, `es_ES.UTF-8`; undefined where it names none. */
  readonly locale?: string | undefined;
  /** Characters to a line of the terminal; undefined where nobody looks. */
  readonly columns: number | undefined;
  /** Resolves when the person asks the program to stop. */
  readonly stopped: () => Promise<void>;
  /** Calls back at each press of Enter, where a person sits at the keyboard. Returns the way to stop listening. */
  readonly pressed?: (heard: () => void) => () => void;
}

/** Exit codes of the contract. */
export const EXIT = { answered: 0, failed: 1, badInput: 2, outsideModel: 3 } as const;

/** A command line that cannot be meant: one clear line, exit 2. */
export class UsageError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'UsageError';
  }
}
