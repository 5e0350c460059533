import type { Finding } from '../science/finding.ts';
import type { Answers } from '../make/setup.ts';
import type { Spread } from '../numbers/stats.ts';

/** What may be aimed at. `endMin` is when the day's last step that wants hands is over, minutes since zero. */
export const AIM_QUANTITIES = [
  'pH', 'moisturePercent', 'fatInDryMatterPercent', 'saltPercent', 'saltInMoisturePercent', 'cheeseKg',
  'cheesePerMilkKgPerL', 'endMin',
] as const; // prettier-ignore
export type AimQuantity = (typeof AIM_QUANTITIES)[number];

/** One thing wanted: a quantity between two values, either of which may be infinite. */
export interface Wanted {
  readonly quantity: AimQuantity;
  readonly low: number;
  readonly high: number;
  /** Of a pH: the step at whose end it is meant; the make's own aim where left out. */
  readonly stepId?: string;
}

/** One thing that may be set otherwise, by the id of an adjustable or `start` (minutes later than planned, below 0 earlier). */
export interface Free {
  readonly id: string;
  /** Narrower than the make's own range where given. */
  readonly low?: number;
  readonly high?: number;
}

/** The free input that moves the whole make on the clock. */
export const START = 'start';

export interface Question {
  /** One to four, all to be met together. */
  readonly aims: readonly Wanted[];
  /** One to five. */
  readonly free: readonly Free[];
  /** Of such makes, the share that must meet every aim, 0.5 to 0.98; 0.8 where left out. */
  readonly probability?: number;
}

/** One free input in an answer, never hiding that it stands at an end of its range. */
export interface Setting {
  readonly id: string;
  readonly value: number;
  /** As planned; where the forecast decides it, what it expects. */
  readonly was: number;
  readonly isChanged: boolean;
  readonly low: number;
  readonly high: number;
  readonly atBound: 'low' | 'high' | null;
}

/** Settings, and what they would bring: counted among members that had no part in finding them. */
export interface Way {
  readonly settings: readonly Setting[];
  /** Share of members that meet every aim. */
  readonly probability: number;
  /** Two standard errors of that share. */
  readonly plusMinus: number;
  /** In the order of the question; `others`: the share that meets every aim but this one. */
  readonly aims: readonly { readonly probability: number; readonly others: number; readonly spread: Spread }[];
  readonly endMin: Spread;
  readonly cheeseKg: Spread;
  /** The kitchen's answers with these settings in them: what a plan is made from. `start` is not in them. */
  readonly answers: Answers;
  readonly startShiftMin: number;
}

/** Why another way is worth telling. */
export type WayKind = 'soonest' | 'surest' | 'for-this-aim' | 'for-the-others';

/** The aim that stands in the way: by itself, or against the others. */
export interface Obstacle {
  /** Index into the question's aims. */
  readonly aim: number;
  readonly kind: 'out-of-reach' | 'against-the-others';
  /** `out-of-reach`: the most that this aim alone can come to. `against-the-others`: what they come to without it. */
  readonly way: Way;
  readonly probability: number;
}

/** What solves a question, or comes nearest. */
export interface Answer {
  /** `reached` only where the verified probability is the wanted one, or more. */
  readonly verdict: 'as-it-stands' | 'reached' | 'not-reached';
  readonly wanted: number;
  readonly asItStands: Way;
  /** The least change that reaches the aims; where nothing does, what comes nearest. */
  readonly best: Way;
  readonly others: readonly { readonly kind: WayKind; readonly way: Way }[];
  readonly obstacle: Obstacle | null;
  /** Indices of aims that none of the free inputs moves. */
  readonly unmoved: readonly number[];
  /** Cautions that hold for `best` and not for the make as it stands. */
  readonly findings: readonly Finding[];
  readonly seed: number;
  readonly modelVersion: string;
  /** Members behind every probability told. */
  readonly members: number;
  /** Makes that were run to find it. */
  readonly runs: number;
}
