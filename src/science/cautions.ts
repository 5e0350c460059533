/**
 * The cautions of a make: which of the rules in `caution-rules-*.ts` hold in a situation.
 * A `stop` blocks labelling, packing and selling; at the vat it asks for one line of what was decided. No step is held
 * back. The words are in `words/<language>/findings.json`, one sentence a code.
 */
import { type FactName, type Facts, factsOf, type Situation } from './caution-facts.ts';
import type { CautionRule, Condition } from './caution-rule.ts';
import { FAMILY_RULES } from './caution-rules-families.ts';
import { PLAN_RULES } from './caution-rules-plan.ts';
import { FINISHED_RULES, VAT_RULES } from './caution-rules-vat.ts';
import type { Finding, Severity } from './finding.ts';

export type { Situation } from './caution-facts.ts';

/** Every rule: plan, vat, finished cheese. */
const CAUTION_RULES: readonly CautionRule[] = [...PLAN_RULES, ...VAT_RULES, ...FAMILY_RULES, ...FINISHED_RULES];

/** Every code a caution can have, in the order of the rules. */
export const CAUTION_CODES: readonly string[] = [...new Set(CAUTION_RULES.map((rule) => rule.code))];

/** The fields that the words of each code may use: those that every rule of the code provides. */
export const CAUTION_FIELDS: ReadonlyMap<string, readonly FactName[]> = new Map(
  CAUTION_CODES.map((code) => {
    const [first, ...rest] = CAUTION_RULES.filter((rule) => rule.code === code);
    return [code, (first?.fields ?? []).filter((field) => rest.every((rule) => rule.fields.includes(field)))];
  }),
);

const ORDER: Readonly<Record<Severity, number>> = { stop: 0, caution: 1, info: 2 };

function holds(condition: Condition, facts: Facts): boolean {
  const value = facts[condition.fact];
  const isUnknown = value === undefined || value === null || (typeof value === 'number' && !Number.isFinite(value));
  if (isUnknown) return 'isUnknown' in condition || ('orUnknown' in condition && (condition.orUnknown ?? false));
  if ('isUnknown' in condition) return false;
  if ('isKnown' in condition) return true;
  if ('is' in condition) return value === condition.is;
  if ('isNot' in condition) return value !== condition.isNot;
  if (typeof value !== 'number') return false;
  if ('above' in condition) return value > condition.above;
  if ('atLeast' in condition) return value >= condition.atLeast;
  return value < condition.below;
}

function findingOf(rule: CautionRule, facts: Facts): Finding {
  const fields: Record<string, number | string> = {};
  for (const name of rule.fields) {
    const value = facts[name];
    // What is unknown is said to be so: a sentence must never print an empty place.
    fields[name] = typeof value === 'number' || typeof value === 'string' ? value : '?';
  }
  const { code, severity, source } = rule;
  return rule.isUnconfirmed === true
    ? { severity, code, fields, source, unconfirmed: true }
    : { severity, code, fields, source };
}

/**
 * The cautions that hold in a situation.
 *
 * Of the rules of one code the first that holds speaks (they stand from severe to mild); a caution appears only where its
 * trigger is really there. Slow acid is judged by this culture's own forecast and the trade's eight hours; the growth
 * integral of staphylococci is information, and weighs more only where the acid is late.
 *
 * @param situation what is known: see `Situation` for fields and units; every field may be left out
 * @returns findings, stops first, then cautions, then information
 * Shapes: at most one finding a code.
 * Valid: any situation. Uncertainty: as the source of each rule; marked `unconfirmed` where its figure is from memory.
 * @source each rule's own, in `caution-rules-*.ts`; local code, inspector and licence decide
 */
export function cautionsFor(situation: Situation): readonly Finding[] {
  const facts = factsOf(situation);
  const found = new Map<string, Finding>();
  for (const rule of CAUTION_RULES) {
    if (found.has(rule.code)) continue;
    if (rule.when.every((condition) => holds(condition, facts))) found.set(rule.code, findingOf(rule, facts));
  }
  return [...found.values()].sort((a, b) => ORDER[a.severity] - ORDER[b.severity]);
}

/** True where something must be decided and written down before anything is labelled, packed or sold. */
export const isHeld = (findings: readonly Finding[]): boolean => findings.some(({ severity }) => severity === 'stop');
