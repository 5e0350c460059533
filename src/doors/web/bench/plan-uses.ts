/** What a sum knows that a plan takes: which of its blanks and answers become which facts. */
import type { UnitSystem } from '../../../exchange/written.ts';
import { valueAt } from '../../../make/problems.ts';
import type { FactPath } from '../plan/draft-fields.ts';
import { typedText } from '../plan/draft.ts';

interface Use {
  readonly path: FactPath;
  /** A blank of the sum, or a part of its answer. */
  readonly from: 'given' | 'result';
  readonly at: string;
}
const given = (at: string, path: FactPath): Use => ({ path, from: 'given', at });
const result = (at: string, path: FactPath): Use => ({ path, from: 'result', at });

const USES: Readonly<Record<string, readonly Use[]>> = {
  milk: [
    given('species', 'milk.species'),
    given('fatPercent', 'milk.fatPercent'),
    given('proteinPercent', 'milk.proteinPercent'),
    given('pH', 'milk.pH'),
  ],
  standardise: [result('totalL', 'milk.volumeL'), result('fatPercent', 'milk.fatPercent')],
  'vat-fit': [result('heaterW', 'pot.heaterW'), result('lossWPerK', 'pot.lossWPerK')],
  rennet: [
    given('form', 'rennet.form'),
    given('strengthIMCUPerML', 'rennet.strengthImcuPerMl'),
    given('monthsStored', 'rennet.monthsStored'),
    given('dropsPerML', 'rennet.dropsPerMl'),
  ],
  'rennet-test': [
    result('strengthIMCUPerML.p50', 'rennet.strengthImcuPerMl'),
    result('strengthIMCUPerML.p5', 'rennet.testedSpanImcuPerMl.low'),
    result('strengthIMCUPerML.p95', 'rennet.testedSpanImcuPerMl.high'),
  ],
  calcium: [given('solutionPercent', 'calcium.solutionPercent')],
};

/** A fact that is carried into the plan, as it would be typed there. */
export interface CarriedFact {
  readonly path: FactPath;
  readonly text: string;
}

/**
 * The facts that a sum carries into a plan; empty where it knows nothing that a plan asks for. Blanks that still hold the
 * worked example are nobody's milk, and stay behind; so does an answer while every blank is the example's.
 */
export function planUses(input: {
  readonly sum: string;
  readonly given: unknown;
  readonly result: unknown;
  /** Blanks that hold the example. */
  readonly examples: readonly string[];
  /** True where at least one blank is the reader's own. */
  readonly hasOwn: boolean;
  readonly units: UnitSystem;
}): readonly CarriedFact[] {
  const { sum, examples, hasOwn, units } = input;
  return (USES[sum] ?? []).flatMap(({ path, from, at }) => {
    if (from === 'given' ? examples.includes(at) : !hasOwn) return [];
    const value = valueAt({ json: input[from], path: at.split('.') });
    if (typeof value === 'number') return [{ path, text: typedText({ path, value, units }) }];
    return typeof value === 'string' ? [{ path, text: value }] : [];
  });
}
