import type { Changes } from './changes.ts';
import type { Make } from './make.ts';
import type { Assumption, Setup } from './setup.ts';
import type { Condition, Preparation, Step, Verb } from './step.ts';

/** An amount as weighed or measured, and as a kitchen would take it. */
export interface Amount {
  /** `culture`, `rennet`, `rennet-water`, `calcium`, `milk`, `salt`, `stretch-water`, `ice`, `wash-water`, `whey-drawn`, `brine`. */
  readonly id: string;
  /** Canonical unit of this amount. */
  readonly unit: 'g' | 'mL' | 'L' | 'kg' | 'drops' | 'packets';
  readonly value: number;
  /** Where strength or yield is unknown, the likely range. */
  readonly low?: number;
  readonly high?: number;
  /** The same amount for hands: a share of a packet, drops, a spoon with its error. */
  readonly kitchen?: { readonly words: string; readonly errorPercent?: number };
  /** The same amount in other units: grams of a packet's share, depth of whey in the pot, drops of rennet, litres of milk's mass. */
  readonly also?: readonly OtherMeasure[];
  /** The nearest spoon and how far off it may be; the least sure way, and shown last. */
  readonly spoon?: { readonly words: string; readonly errorPercent: number };
  /** Set where a label that nobody has read decides it: told beside the amount wherever that is shown. */
  readonly restsOn?: 'unread-packet';
  /** Where several steps take of it: this step's part of all that the make takes, 0 to 1; left out where it is all of it. */
  readonly part?: number;
  /** True when it waits for the drained weight. */
  readonly dependsOnCurd: boolean;
  readonly stepId: string;
}

export interface OtherMeasure {
  readonly unit: 'g' | 'mL' | 'L' | 'kg' | 'cm' | 'drops' | 'tablets';
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
}

/** Something this milk or kit does to the make: worth reading before the burner is lit, never a stop. */
export interface Remark {
  /** Stable code: `milk-homogenised`, `pot-full`, `weigh-the-packet`. */
  readonly code: string;
  readonly because: string;
  readonly instead: string;
  readonly source: string;
}

/** One step with every figure scaled to this milk and pot. */
export interface PlannedStep {
  readonly id: string;
  readonly verb: Verb;
  readonly name: string;
  readonly how: string;
  readonly done: string;
  /** Figures of the make, plain numbers by setting name. */
  readonly set: Readonly<Partial<Record<keyof Step['set'], number | string | boolean>>>;
  readonly until: { readonly join: 'first' | 'all'; readonly of: readonly Condition[] };
  readonly handsMin: { readonly start: number; readonly during: number; readonly end: number };
  readonly kit: Step['kit'];
  readonly prepare: readonly Preparation[];
  readonly watch: Step['watch'];
  readonly why: string;
  readonly cautions: readonly string[];
  /** Where the pot was held otherwise at first: the temperature, and until which minute of the make. */
  readonly heldUntil?: readonly { readonly atC: number; readonly untilMin: number }[];
}

/** A make fitted to this milk, pot and kit. No clock in it: doors hang it on the wall. */
export interface Plan {
  readonly make: Make;
  readonly setup: Setup;
  readonly assumed: readonly Assumption[];
  readonly amounts: readonly Amount[];
  readonly steps: readonly PlannedStep[];
  /** What the maker chose of the make, already in its figures. */
  readonly changes?: Changes;
  /** What this milk and kit do to the make. */
  readonly remarks?: readonly Remark[];
}
