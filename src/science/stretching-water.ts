/**
 * How much hot water a curd needs to stretch, in one or more pours, and what the water takes along.
 * Plain heat balances: the time it takes to get inside the pieces, and the bowl's losses, are in `stretching-bowl.ts`.
 */
import { InputError, requireWithin, type Validity } from '../numbers/validity.ts';
import { WATER_SPECIFIC_HEAT_KJ_PER_KG_K } from './properties.ts';

/** Curd temperatures at which it begins to stretch, where to aim, and above which it is warned of. */
export const STRETCH_WINDOW = {
  startC: 50, // university extension practice (seen at second hand): curd inside 50 to 60 °C
  aimLowC: 55, // teaching quiz and reviews (weak, seen): curd 55 to 65 °C
  aimHighC: 60, // as startC
  warnAboveC: 62, // our own choice between 60 and 65: free oil rises from 24 % at 55 °C to 35 % at 75 °C (2003 abstract seen)
} as const;

export interface StretchWaterInput {
  readonly curdKg: number;
  readonly curdC: number;
  readonly waterC: number;
  /** Of the curd [kJ/(kg K)], from `cheeseThermal`. */
  readonly curdKJPerKgK: number;
  /** Equal pours; the water of each is drained before the next. 1 where not given. */
  readonly pours?: number;
  /** Heat that the bowl takes up [kJ/K]; 0 for a bowl that was warmed. */
  readonly bowlKJPerK?: number;
  /** Of the bowl before the first pour; as the curd where not given. */
  readonly bowlC?: number;
}

const HERE = 'our own limits: curd in hot water';

export const stretchWaterValidity: Validity = {
  curdKg: { low: 0.01, high: 1000, unit: 'kg', source: HERE },
  curdC: { low: 0, high: 75, unit: '°C', source: HERE },
  waterC: { low: 30, high: 100, unit: '°C', source: HERE },
  targetC: { low: 20, high: 95, unit: '°C', source: HERE },
  curdKJPerKgK: { low: 1.5, high: 4.2, unit: 'kJ/(kg K)', source: 'fat 2.0 to water 4.2' },
  pours: { low: 1, high: 6, unit: '-', source: HERE },
  waterKg: { low: 0, high: 20_000, unit: 'kg', source: HERE },
  bowlKJPerK: { low: 0, high: 100, unit: 'kJ/K', source: HERE },
};

/** Kernel of `stretchMixesC`: no checks. */
function mixes(input: StretchWaterInput & { readonly waterKg: number }): number[] {
  const curd = input.curdKg * input.curdKJPerKgK;
  const bowl = input.bowlKJPerK ?? 0;
  const water = input.waterKg * WATER_SPECIFIC_HEAT_KJ_PER_KG_K;
  let curdC = input.curdC;
  let bowlC = input.bowlC ?? input.curdC;
  const results: number[] = [];
  for (let i = 0; i < (input.pours ?? 1); i++) {
    curdC = (curd * curdC + bowl * bowlC + water * input.waterC) / (curd + bowl + water);
    bowlC = curdC;
    results.push(curdC);
  }
  return results;
}

/**
 * What curd, water and bowl come to after each pour, once even and without losses.
 *
 * T = (cp_c m_c T_c + C_bowl T_bowl + cp_w m_w T_w) / (cp_c m_c + C_bowl + cp_w m_w), again for each pour, the water
 * of the last one drained first.
 *
 * @param input.curdKg  [kg], 0.01 to 1000
 * @param input.curdC  [°C], 0 to 75
 * @param input.waterC  [°C], 30 to 100
 * @param input.waterKg  in each pour [kg], 0 to 20000
 * @param input.curdKJPerKgK  of the curd [kJ/(kg K)], 1.5 to 4.2
 * @param input.pours  1 to 6
 * @param input.bowlKJPerK  of the bowl [kJ/K], 0 to 100
 * @returns one temperature a pour [°C]
 * Valid: as `stretchWaterValidity`. Uncertainty: 0.5 K, before the losses of a real bowl (1 to 1.7 K a minute).
 * @throws InputError naming the field, its value and the range
 * @source heat balance
 */
export function stretchMixesC(input: StretchWaterInput & { readonly waterKg: number }): number[] {
  requireWithin(stretchWaterValidity, { ...checked(input), waterKg: input.waterKg });
  return mixes(input);
}

const checked = (input: StretchWaterInput): Record<string, number | undefined> => ({
  curdKg: input.curdKg,
  curdC: input.curdC,
  waterC: input.waterC,
  curdKJPerKgK: input.curdKJPerKgK,
  pours: input.pours,
  bowlKJPerK: input.bowlKJPerK,
});

/**
 * Water in each pour that brings curd and water to a target together, without losses.
 *
 * Each pour leaves the share r = C / (C + cp_w m_w) of the distance to the water, C of curd and bowl, so n pours leave
 * r^n = (T_w - T_f) / (T_w - T_0), with T_0 of curd and bowl evened out; m_w = C (1/r - 1) / cp_w.
 *
 * @param input  as `stretchMixesC` without `waterKg`
 * @param input.targetC  of curd and water after the last pour [°C], 20 to 95
 * @returns water in each pour [kg]; 0 where the curd is that warm already
 * Valid: as `stretchWaterValidity`. Uncertainty: 5 %; real bowls need up to half as much again.
 * @throws InputError with code `unreachable` when the water is not warmer than the target
 * @source heat balance
 */
export function stretchWaterKg(input: StretchWaterInput & { readonly targetC: number }): number {
  const { targetC, waterC, curdC } = input;
  requireWithin(stretchWaterValidity, { ...checked(input), targetC });
  if (targetC <= curdC) return 0;
  if (waterC <= targetC + 0.1) {
    throw new InputError([
      {
        code: 'unreachable',
        field: 'waterC',
        value: waterC,
        unit: '°C',
        expected: `well above the target of ${targetC} °C`,
        remedy: 'Use hotter water, or aim lower.',
      },
    ]);
  }
  return stretchWaterKernel(input);
}

/** Kernel of `stretchWaterKg`: no checks; Infinity where the water is no warmer than the target. */
export function stretchWaterKernel(input: StretchWaterInput & { readonly targetC: number }): number {
  const { targetC, waterC, curdC } = input;
  const curd = input.curdKg * input.curdKJPerKgK;
  const bowl = input.bowlKJPerK ?? 0;
  const evenC = (curd * curdC + bowl * (input.bowlC ?? curdC)) / (curd + bowl);
  if (targetC <= curdC || targetC <= evenC) return 0;
  if (waterC <= targetC) return Number.POSITIVE_INFINITY;
  const left = ((waterC - targetC) / (waterC - evenC)) ** (1 / (input.pours ?? 1));
  return ((curd + bowl) * (1 / left - 1)) / WATER_SPECIFIC_HEAT_KJ_PER_KG_K;
}

/** What stretch water takes out of the curd, percent of what the curd held. */
export interface StretchLosses {
  readonly fatLowPercent: number;
  readonly fatHighPercent: number;
  readonly proteinLowPercent: number;
  readonly proteinHighPercent: number;
}

/** Fat and protein in stretch water [% w/w], the middle of four studies: Gernigon, Schuck and Jeantet (2010), Table I (seen). */
const WATER_FAT_PERCENT = { low: 0.28, high: 0.56 } as const;
const WATER_PROTEIN_PERCENT = { low: 0.06, high: 0.12 } as const; // same table; read as protein, not nitrogen (derived)

/**
 * Fat and protein that stretching leaves in the water.
 *
 * loss % = water per curd x share in the water / share in the curd x 100.
 *
 * @param input.waterPerCurd  all pours together, kg per kg [-]
 * @param input.curdFatPercent  [%]
 * @param input.curdProteinPercent  [%]
 * @returns percent of the curd's own fat and protein, low to high
 * Valid: 0.5 to 3 kg/kg. Uncertainty: the span; single studies from 0.04 to 1.18 % fat in the water.
 * @source Gernigon, Schuck and Jeantet (2010) Dairy Sci. Technol. 90, Table I (seen); the arithmetic is derived
 */
export function stretchLosses(input: {
  readonly waterPerCurd: number;
  readonly curdFatPercent: number;
  readonly curdProteinPercent: number;
}): StretchLosses {
  const { waterPerCurd, curdFatPercent, curdProteinPercent } = input;
  const of = (share: number, held: number): number => (held > 0 ? (100 * waterPerCurd * share) / held : 0);
  return {
    fatLowPercent: of(WATER_FAT_PERCENT.low, curdFatPercent),
    fatHighPercent: of(WATER_FAT_PERCENT.high, curdFatPercent),
    proteinLowPercent: of(WATER_PROTEIN_PERCENT.low, curdProteinPercent),
    proteinHighPercent: of(WATER_PROTEIN_PERCENT.high, curdProteinPercent),
  };
}
