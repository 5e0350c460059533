/**
 * A rule of caution, as data: a code, how severe, when, which facts its sentence needs, and where it comes from.
 * Rules of one code stand from severe to mild; the first that holds speaks. `orUnknown` marks facts whose absence counts
 * against: an untested thermometer or an unmeasured pH never makes a verdict milder.
 */
import type { FactName } from './caution-facts.ts';
import type { Severity } from './finding.ts';

/** One thing that must be so. All conditions of a rule must hold. */
export type Condition =
  | { readonly fact: FactName; readonly is: string | boolean; readonly orUnknown?: boolean }
  | { readonly fact: FactName; readonly isNot: string | boolean; readonly orUnknown?: boolean }
  | { readonly fact: FactName; readonly above: number; readonly orUnknown?: boolean }
  | { readonly fact: FactName; readonly atLeast: number; readonly orUnknown?: boolean }
  | { readonly fact: FactName; readonly below: number; readonly orUnknown?: boolean }
  | { readonly fact: FactName; readonly isKnown: true }
  | { readonly fact: FactName; readonly isUnknown: true };

export interface CautionRule {
  readonly code: string;
  readonly severity: Severity;
  readonly when: readonly Condition[];
  readonly fields: readonly FactName[];
  readonly source: string;
  /** The figure behind it was written from memory and is not yet confirmed. */
  readonly isUnconfirmed?: boolean;
}

/** Where the trade does so and nobody printed it. */
export const PRACTICE = 'common practice (no source)';

// Conditions that many rules share.
export const isRaw: Condition = { fact: 'milkTreatment', is: 'raw' };
export const isSold: Condition = { fact: 'isForSale', is: true };
export const isMake: Condition = { fact: 'volumeL', isKnown: true };
export const isLabelled: Condition = { fact: 'isLabelling', is: true };
