/**
 * How a standard of identity is written down: a name, whose rule, and limits on what is in the cheese. The rows are in
 * `name-standards-us.ts` and `name-standards-codex.ts`; how a cheese fares against them in `yield-names.ts`.
 */

/** What a limit is on: percent of the cheese, of its dry matter, or of its fat-free part. */
export type LimitOn = 'moisture' | 'fat' | 'fatInDryMatter' | 'moistureInFatFree' | 'fatFreeDryMatter';

/** Percent; `min` and `max` still fit, `above` and `below` do not. */
export interface Limit {
  readonly on: LimitOn;
  readonly min?: number;
  readonly max?: number;
  readonly above?: number;
  readonly below?: number;
}

/** From this fat in dry matter on, the cheese needs at least this dry matter [%]. */
export interface DryMatterStep {
  readonly fromFatInDryMatterPercent: number;
  readonly dryMatterMinPercent: number;
}

export interface NameStandard {
  readonly id: string;
  readonly name: string;
  readonly rule: string;
  readonly limits: readonly Limit[];
  /** Steps of least dry matter, leanest first; leaner than the first does not fit at all. */
  readonly drySteps?: readonly DryMatterStep[];
  readonly needsPasteurisedMilk?: boolean;
  readonly source: string;
  /** True where the figures were written from memory and are not yet confirmed. */
  readonly unconfirmed?: boolean;
}
