/**
 * Which names a composition allows, and by how much it keeps or misses each. Composition is one condition of a name among
 * several (process, milk, ripening).
 */
import { CODEX_STANDARDS } from './name-standards-codex.ts';
import { US_STANDARDS } from './name-standards-us.ts';
import type { Limit, LimitOn, NameStandard } from './name-standards.ts';

/** Every standard: 21 CFR and what stands beside it, then Codex. */
export const NAME_STANDARDS: readonly NameStandard[] = [...US_STANDARDS, ...CODEX_STANDARDS];

/** What names are judged by, percent of the cheese. */
export interface NamedCheese {
  readonly moisturePercent: number;
  readonly fatPercent: number;
}

export interface NameMargin {
  readonly on: LimitOn;
  /** Percentage points to the nearest limit, negative where it is missed. */
  readonly marginPoints: number;
}

export interface NameVerdict {
  readonly standard: NameStandard;
  readonly meets: boolean;
  /** The least of all margins; negative, or 0 at a limit that must not be touched, where the name is missed. */
  readonly marginPoints: number;
  readonly margins: readonly NameMargin[];
}

/** All that limits are on, percent (kernel). */
export function limitedQuantities(cheese: NamedCheese): Readonly<Record<LimitOn, number>> {
  const { moisturePercent, fatPercent } = cheese;
  return {
    moisture: moisturePercent,
    fat: fatPercent,
    fatInDryMatter: (100 * fatPercent) / (100 - moisturePercent),
    moistureInFatFree: (100 * moisturePercent) / (100 - fatPercent),
    fatFreeDryMatter: 100 - moisturePercent - fatPercent,
  };
}

/**
 * How a composition fares against every standard.
 *
 * @param cheese.moisturePercent  [%], 0 to below 100
 * @param cheese.fatPercent  of the cheese [%], 0 to 100 less the moisture
 * @returns one verdict a standard, in the order of `NAME_STANDARDS`
 * Valid: any composition. Uncertainty: that of the composition; a margin within the band of moisture decides nothing.
 * @source as each standard states; composition alone does not give a right to a name
 */
export function nameVerdicts(cheese: NamedCheese): NameVerdict[] {
  const has = limitedQuantities(cheese);
  return NAME_STANDARDS.map((standard): NameVerdict => {
    const limits = [...standard.limits, ...dryStepLimits({ standard, fatInDryMatterPercent: has.fatInDryMatter })];
    const margins = limits.map((limit): NameMargin => ({ on: limit.on, marginPoints: marginOf(limit, has[limit.on]) }));
    return {
      standard,
      meets: limits.every((limit) => fits(limit, has[limit.on])),
      marginPoints: Math.min(...margins.map((margin) => margin.marginPoints)),
      margins,
    };
  });
}

/** The step of least dry matter that this fat in dry matter falls on, as limits of its own. */
function dryStepLimits(input: { standard: NameStandard; fatInDryMatterPercent: number }): Limit[] {
  const steps = input.standard.drySteps ?? [];
  const [leanest] = steps;
  if (leanest === undefined) return [];
  const step = steps.filter((each) => each.fromFatInDryMatterPercent <= input.fatInDryMatterPercent).at(-1) ?? leanest;
  return [
    { on: 'fatInDryMatter', min: leanest.fromFatInDryMatterPercent },
    { on: 'moisture', max: 100 - step.dryMatterMinPercent },
  ];
}

const fits = ({ min, max, above, below }: Limit, percent: number): boolean =>
  percent >= (min ?? Number.NEGATIVE_INFINITY) &&
  percent <= (max ?? Number.POSITIVE_INFINITY) &&
  percent > (above ?? Number.NEGATIVE_INFINITY) &&
  percent < (below ?? Number.POSITIVE_INFINITY);

const marginOf = ({ min, max, above, below }: Limit, percent: number): number =>
  Math.min(percent - (min ?? above ?? Number.NEGATIVE_INFINITY), (max ?? below ?? Number.POSITIVE_INFINITY) - percent);

/** The least margin of a verdict on some of its limits; null where it has none on them. */
export function marginOn(verdict: NameVerdict, on: readonly LimitOn[]): number | null {
  const points = verdict.margins.filter((margin) => on.includes(margin.on)).map((margin) => margin.marginPoints);
  return points.length === 0 ? null : Math.min(...points);
}
