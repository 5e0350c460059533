/**
 * What a model says beside its number when it is used at the edge of what was measured. Cautions of a make are in
 * `cautions.ts`; these belong to calculators and forecasts. Words in `words/<language>/findings.json`, as there.
 */
import type { Finding, Severity } from './finding.ts';

interface RemarkKind {
  readonly severity: Severity;
  readonly fields: readonly string[];
  readonly source: string;
}

/** Every remark: how severe, which fields its sentence needs, and where it comes from. */
export const REMARKS = {
  'outside-validity': {
    severity: 'caution',
    fields: ['field', 'value', 'low', 'high', 'unit'],
    source: 'range of the model',
  },
  'brine-near-saturation': {
    severity: 'info',
    fields: ['percentByMass', 'saturatedPercent'],
    source: 'salt trade association, solubility table',
  },
  'brine-strong-rind': {
    severity: 'info',
    fields: ['brinePercent'],
    source: 'Melilli et al., barrier layer of Ragusano: 18 % against saturated, 12 days (abstract seen)',
  },
  'brine-weaker-than-cheese': {
    severity: 'caution',
    fields: ['brineInWaterPercent', 'saltInMoisturePercent'],
    source:
      'softening of white-brined cheese: a brine at least 2 g per 100 g water above the cheese (book excerpt seen)',
  },
  'brine-drops': {
    severity: 'info',
    fields: ['brinePercent', 'brinePercentAfter'],
    source: 'mass balance; at least five times the mass of the cheese: common practice (no source)',
  },
  'salting-unchecked-temperature': {
    severity: 'caution',
    fields: ['temperatureC'],
    source: 'Floury et al. 2010, Table II: temperature factor seen from 4 to 20 °C',
  },
  'spoon-uncertain': {
    severity: 'caution',
    fields: ['errorPercent'],
    source: 'scatter of bulk densities and of spoons: common practice (no source)',
  },
  'scald-upper-bound': {
    severity: 'caution',
    fields: ['waterC'],
    source: 'Moritz & Henriques (1947) ends at 60 °C; upper bounds from a standards discussion, 1997',
  },
  'water-activity-estimate': {
    severity: 'info',
    fields: ['error'],
    source: 'Marcos et al. (1981) J. Dairy Sci. 64:622',
  },
} as const satisfies Record<string, RemarkKind>;

export type RemarkCode = keyof typeof REMARKS;

export const REMARK_CODES: readonly string[] = Object.keys(REMARKS);

/** A remark with the fields its sentence needs: exactly those. */
export function remark<C extends RemarkCode>(input: {
  readonly code: C;
  readonly fields: Readonly<Record<(typeof REMARKS)[C]['fields'][number], number | string>>;
}): Finding {
  const { severity, source }: RemarkKind = REMARKS[input.code];
  return { severity, code: input.code, fields: input.fields, source };
}
