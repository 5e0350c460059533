/**
 * Names that composition decides: fat in dry matter and moisture limits of standards of identity, as data, and by how
 * much a cheese keeps or misses each. Composition is one condition of a name among several (process, milk, ripening).
 */

export interface NameStandard {
  readonly id: string;
  readonly name: string;
  readonly rule: string;
  /** Moisture must lie above this (exclusive), and at or below the other [%]. */
  readonly moistureAbovePercent?: number;
  readonly moistureMaxPercent?: number;
  /** Fat in dry matter at or above this, and below the other (exclusive) [%]. */
  readonly fatInDryMatterMinPercent?: number;
  readonly fatInDryMatterBelowPercent?: number;
  /** Moisture in fat-free substance at or above this, and below the other (exclusive) [%]. */
  readonly moistureInFatFreeMinPercent?: number;
  readonly moistureInFatFreeBelowPercent?: number;
  readonly needsPasteurisedMilk?: boolean;
  readonly source: string;
  /** True where the figures were written from memory and are not yet confirmed. */
  readonly unconfirmed?: boolean;
}

const CFR_TEXT = 'section text read';
const CFR_TABLE = 'textbook table of the 2003 edition, seen at second hand';
const CODEX_OLD = 'Codex general standard A-6-1978, extract seen; the current one has fewer classes';

export const NAME_STANDARDS: readonly NameStandard[] = [
  standard('mozzarella', 'mozzarella', '21 CFR 133.155', [52, 60, 45], CFR_TEXT, { needsPasteurisedMilk: true }),
  standard('low-moisture-mozzarella', 'low-moisture mozzarella', '21 CFR 133.156', [45, 52, 45], CFR_TEXT, {
    needsPasteurisedMilk: true,
  }),
  standard('part-skim-mozzarella', 'part-skim mozzarella', '21 CFR 133.157', [52, 60, 30], CFR_TEXT, {
    fatInDryMatterBelowPercent: 45,
    needsPasteurisedMilk: true,
  }),
  standard(
    'low-moisture-part-skim-mozzarella',
    'low-moisture part-skim mozzarella',
    '21 CFR 133.158',
    [45, 52, 30],
    CFR_TEXT,
    { fatInDryMatterBelowPercent: 45, needsPasteurisedMilk: true },
  ),
  standard('provolone', 'provolone', '21 CFR 133.181', [null, 45, 45], CFR_TABLE),
  standard('caciocavallo', 'caciocavallo', '21 CFR 133.111', [null, 40, 42], CFR_TABLE),
  standard('cheddar', 'cheddar', '21 CFR 133.113', [null, 39, 50], CFR_TEXT),
  standard('colby', 'colby', '21 CFR 133.118', [null, 40, 50], CFR_TABLE),
  standard('edam', 'edam', '21 CFR 133.138', [null, 45, 40], CFR_TABLE),
  standard('gouda', 'gouda', '21 CFR 133.142', [null, 45, 46], CFR_TEXT),
  standard('muenster', 'muenster', '21 CFR 133.160', [null, 46, 50], CFR_TEXT, { needsPasteurisedMilk: true }),
  standard('brick', 'brick', '21 CFR 133.108', [null, 44, 50], CFR_TABLE),
  standard('codex-extra-hard', 'extra hard', 'Codex A-6-1978', [null, null, null], CODEX_OLD, {
    moistureInFatFreeBelowPercent: 51,
  }),
  standard('codex-hard', 'hard', 'Codex A-6-1978', [null, null, null], CODEX_OLD, {
    moistureInFatFreeMinPercent: 49,
    moistureInFatFreeBelowPercent: 56,
  }),
  standard('codex-semi-hard', 'semi-hard', 'Codex A-6-1978', [null, null, null], CODEX_OLD, {
    moistureInFatFreeMinPercent: 54,
    moistureInFatFreeBelowPercent: 63,
  }),
  standard('codex-semi-soft', 'semi-soft', 'Codex A-6-1978', [null, null, null], CODEX_OLD, {
    moistureInFatFreeMinPercent: 61,
    moistureInFatFreeBelowPercent: 69,
  }),
  standard('codex-soft', 'soft', 'Codex A-6-1978', [null, null, null], CODEX_OLD, { moistureInFatFreeMinPercent: 67 }),
  standard('codex-high-fat', 'high fat', 'Codex A-6-1978', [null, null, 60], CODEX_OLD),
  standard('codex-full-fat', 'full fat', 'Codex A-6-1978', [null, null, 45], CODEX_OLD, {
    fatInDryMatterBelowPercent: 60,
  }),
  standard('codex-medium-fat', 'medium fat', 'Codex A-6-1978', [null, null, 25], CODEX_OLD, {
    fatInDryMatterBelowPercent: 45,
  }),
  standard('codex-low-fat', 'low fat', 'Codex A-6-1978', [null, null, 10], CODEX_OLD, {
    fatInDryMatterBelowPercent: 25,
  }),
  standard('codex-skim', 'skim', 'Codex A-6-1978', [null, null, null], CODEX_OLD, { fatInDryMatterBelowPercent: 10 }),
];

/** One row: [moisture above, moisture at most, fat in dry matter at least], null = no limit. */
function standard(
  id: string,
  name: string,
  rule: string,
  [above, max, fat]: readonly [number | null, number | null, number | null],
  source: string,
  rest: Partial<NameStandard> = {},
): NameStandard {
  return {
    id,
    name,
    rule,
    source,
    ...(above === null ? {} : { moistureAbovePercent: above }),
    ...(max === null ? {} : { moistureMaxPercent: max }),
    ...(fat === null ? {} : { fatInDryMatterMinPercent: fat }),
    ...rest,
  };
}

export interface NameVerdict {
  readonly standard: NameStandard;
  readonly meets: boolean;
  /** Percentage points to the nearest limit of each kind, negative where it is missed; null = no such limit. */
  readonly moistureMarginPoints: number | null;
  readonly fatMarginPoints: number | null;
  readonly moistureInFatFreeMarginPoints: number | null;
}

/**
 * Which names the composition allows, and by what margin.
 *
 * @param cheese.moisturePercent  [%], 0 to 100
 * @param cheese.fatInDryMatterPercent  [%], 0 to 100
 * @param cheese.moistureInFatFreePercent  [%], 0 to 100
 * @returns one verdict a standard, in the order of `NAME_STANDARDS`
 * Valid: any composition. Uncertainty: that of the composition; a margin within the band of moisture decides nothing.
 * @source as each standard states; composition alone does not give a right to a name
 */
export function nameVerdicts(cheese: {
  moisturePercent: number;
  fatInDryMatterPercent: number;
  moistureInFatFreePercent: number;
}): NameVerdict[] {
  return NAME_STANDARDS.map((each): NameVerdict => {
    const moisture = margin(cheese.moisturePercent, each.moistureAbovePercent, each.moistureMaxPercent);
    const fat = margin(cheese.fatInDryMatterPercent, each.fatInDryMatterMinPercent, each.fatInDryMatterBelowPercent);
    const mffs = margin(
      cheese.moistureInFatFreePercent,
      each.moistureInFatFreeMinPercent,
      each.moistureInFatFreeBelowPercent,
    );
    const excluded =
      cheese.moisturePercent === each.moistureAbovePercent ||
      cheese.fatInDryMatterPercent === each.fatInDryMatterBelowPercent ||
      cheese.moistureInFatFreePercent === each.moistureInFatFreeBelowPercent;
    return {
      standard: each,
      meets: (moisture ?? 0) >= 0 && (fat ?? 0) >= 0 && (mffs ?? 0) >= 0 && !excluded,
      moistureMarginPoints: moisture,
      fatMarginPoints: fat,
      moistureInFatFreeMarginPoints: mffs,
    };
  });
}

function margin(percent: number, low: number | undefined, high: number | undefined): number | null {
  if (low === undefined && high === undefined) return null;
  return Math.min(
    low === undefined ? Number.POSITIVE_INFINITY : percent - low,
    high === undefined ? Number.POSITIVE_INFINITY : high - percent,
  );
}
