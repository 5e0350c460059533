/** What every calculator needs at its edge: the giver's own field names in errors, and a word near the edge of validity. */
import { InputError, type Validity } from '../../numbers/validity.ts';
import type { Finding } from '../../science/finding.ts';

/** Our name to the name in the calculator contract: `{ doseImcuPerL: 'doseIMCUPerL' }`. */
export type FieldNames = Readonly<Record<string, string>>;

/**
 * Runs a sum; problems come back under the names that the giver used.
 * @throws InputError with the same problems, renamed
 */
export function underContractNames<T>(names: FieldNames, run: () => T): T {
  try {
    return run();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError(error.problems.map((each) => ({ ...each, field: names[each.field] ?? each.field })));
  }
}

const EDGE_FRACTION = 0.05; // of a range counts as its edge: our own choice

/** One remark for each value in the outer twentieth of its valid range; a natural zero is no edge. */
export function nearEdges(input: {
  validity: Validity;
  values: Readonly<Record<string, number | undefined>>;
  names: FieldNames;
}): Finding[] {
  const findings: Finding[] = [];
  for (const [field, range] of Object.entries(input.validity)) {
    const value = input.values[field];
    if (value === undefined) continue;
    const edge = EDGE_FRACTION * (range.high - range.low);
    const isNearLow = range.low !== 0 && value < range.low + edge;
    if (!isNearLow && value <= range.high - edge) continue;
    findings.push({
      severity: 'caution',
      code: 'near-edge-of-validity',
      fields: { field: input.names[field] ?? field, value, low: range.low, high: range.high, unit: range.unit },
      source: range.source,
    });
  }
  return findings;
}
