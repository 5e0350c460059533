/** What a part of the fault run is given. */
export interface PartInput {
  /** Every chance in a part comes from this number, so that a run can be repeated. */
  readonly seed: number;
  /** A share of the full size, 1 for all of it: how many kills, merges, cases. */
  readonly share: number;
  /** A folder of the part's own, removed after the run. */
  readonly folder: string;
  /** Whether what is found goes into docs/, beside the page. */
  readonly isKept: boolean;
  /** Says how far the part is, one line at a time. */
  readonly tell: (line: string) => void;
}

/** One figure with what it means, as `docs/reliability.md` tells it. */
export interface Figure {
  /** Words for a line: `acknowledged events`. */
  readonly name: string;
  readonly value: number;
  /** Of the value, where it has one: `ms`, `MB`. */
  readonly unit?: string;
}

/** What a part found. The last three counts make the last line of the run; they are 0 in a part that has nothing of the kind. */
export interface PartResult {
  readonly figures: readonly Figure[];
  /** Events that were acknowledged and are not there. */
  readonly lost: number;
  /** Events that are there twice, or places with a hole or two events. */
  readonly duplicated: number;
  /** Stores that did not open, or that their engine calls damaged. */
  readonly corrupt: number;
  /** Whatever else was not as promised, one sentence each; any of them fails the run. */
  readonly failures: readonly string[];
  /** Why the part could not run here; the run says so, and fails where it was asked for by name. */
  readonly leftOut?: string;
}

/** One kind of fault, in a module of its own under `tests/faults/parts`; `../parts.ts` lists them all. */
export interface FaultPart {
  /** Of the command line: `npm run faults -- kills`. */
  readonly name: string;
  /** A heading: `Server killed outright`. */
  readonly title: string;
  /** What is done and what it shows, for the page. */
  readonly shows: string;
  /** What it does not show. */
  readonly showsNot: string;
  readonly run: (input: PartInput) => Promise<PartResult>;
}
