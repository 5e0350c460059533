/**
 * Calcium between micelle and serum, and what is left in the curd to hold it together when it is stretched.
 * The pH at draining fixes how much calcium leaves with the whey; the curd's own pH how much loosens afterwards.
 * Left out: temperature (cold milk dissolves more between pH 6.0 and 5.2), added calcium.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import { COLLOIDAL_MIDPOINT_SLOW_PH, colloidalDissolvedFraction } from './buffer.ts';
import type { MilkComposition } from './milk.ts';

const SOLUBLE_AT_START = 0.34; // Fox and McSweeney (1998), Dairy Chemistry and Biochemistry p. 254, cow, seen
const PHOSPHATE_PER_CALCIUM = 0.867; // of Ca(HPO4)0.6(PO4)0.267 (Wang, Holt, Nylander and Ma), summary seen
const START_PH = 6.65; // pH of the same milk
const BOUND_MIDPOINT_PH = 5; // our own fit to: all calcium free only at pH 3.5 (Le Graet and Brule 1993, Lait 73:51, seen)
const BOUND_WIDTH_PH = 0.35; // our own fit, as above

/** Insoluble calcium of curd drained sweet [mg/g protein]: our own rounding of Remillard and Britten (2011), abstract seen. */
const INSOLUBLE_AT_START_MG_PER_G = 27;
const LOSS_PER_PH_AFTER_DRAINING = 0.125; // our own: 10 to 15 % between draining near 6.2 and pH 5.2 (Lee 2017, Table 5, seen)

// Upper soluble shares, which the calcium of two drained curds asks for (24.9 and 21.0 mg/g at pH 6.29 and 6.07, Lee 2017,
// J. Milk Sci. Biotechnol. 35:85, seen). From memory above pH 5.4 (Dalgleish and Law 1989, not seen).
const UPPER_SOLUBLE: readonly (readonly [pH: number, share: number])[] = [
  [4.6, 0.93],
  [4.8, 0.9],
  [5.0, 0.85],
  [5.2, 0.77],
  [5.4, 0.66],
  [5.6, 0.6],
  [5.8, 0.5],
  [6.0, 0.45],
  [6.65, 0.34],
];

// Total calcium above which curd tears at a pH: our own line through Guinee et al. (2002), J. Dairy Sci. 85:1655 and Sheehan
// and Guinee (2004), abstracts seen.
const STRETCH_LINE: readonly (readonly [pH: number, mgPerG: number])[] = [
  [5.2, 28],
  [5.4, 27],
  [5.6, 25.5],
  [5.9, 21],
];

export const calciumValidity: Validity = {
  pH: { low: 4.6, high: 6.8, unit: 'pH', source: 'partition data of milk at 20 to 30 °C' },
  drainPH: { low: 4.6, high: 6.8, unit: 'pH', source: 'partition data of milk at 20 to 30 °C' },
  curdPH: { low: 4.6, high: 6.8, unit: 'pH', source: 'partition data of milk at 20 to 30 °C' },
};

const between = (points: readonly (readonly [number, number])[], at: number): number => {
  let [belowX, belowY] = points[0] ?? [0, 0];
  for (const [x, y] of points) {
    if (at <= x) return x === belowX ? y : belowY + ((y - belowY) * (at - belowX)) / (x - belowX);
    belowX = x;
    belowY = y;
  }
  return belowY;
};

/**
 * Share of the milk's calcium that is in solution at a pH.
 *
 * 0.34 at the start, plus what the colloidal phosphate sets free (midpoint pH 5.50), plus what casein lets go (midpoint 5.0).
 *
 * @param input.milk  composition: calcium and colloidal phosphate
 * @param input.pH  [-], 4.6 to 6.8
 * @returns share of total calcium [-], 0.34 to 0.93 for cow's milk
 * Valid: as `calciumValidity`. Uncertainty: standard deviation 0.06; up to 0.08 higher between pH 5.6 and 6.0.
 * @throws InputError outside pH 4.6 to 6.8
 * @source Le Graet and Brule (1993), Lait 73:51, seen; Fox and McSweeney (1998) p. 254, seen; fit our own
 */
export function solubleCalciumFraction(input: {
  readonly milk: Pick<MilkComposition, 'calciumMM' | 'colloidalPhosphateMM'>;
  readonly pH: number;
}): number {
  requireWithin(calciumValidity, { pH: input.pH });
  const { calciumMM, colloidalPhosphateMM } = input.milk;
  const inPhosphate = colloidalPhosphateMM / PHOSPHATE_PER_CALCIUM;
  const onCasein = calciumMM * (1 - SOLUBLE_AT_START) - inPhosphate;
  const dissolved = (pH: number) => colloidalDissolvedFraction({ pH, midpointPH: COLLOIDAL_MIDPOINT_SLOW_PH });
  const free = (pH: number) => 1 / (1 + Math.exp((pH - BOUND_MIDPOINT_PH) / BOUND_WIDTH_PH));
  const gained =
    inPhosphate * (dissolved(input.pH) - dissolved(START_PH)) + onCasein * (free(input.pH) - free(START_PH));
  return SOLUBLE_AT_START + gained / calciumMM;
}

/**
 * Insoluble calcium in the curd, the indicator of stretching: a cultured curd stretches near 18 to 23 mg/g.
 *
 * X = 27 (1 - (soluble share at draining - 0.34)/0.66), less an eighth for each pH unit the curd falls after draining.
 *
 * @param input.drainPH  pH of curd and whey when the whey left [-], 4.6 to 6.8
 * @param input.curdPH  pH of the curd now [-], 4.6 to 6.8
 * @returns insoluble calcium [mg per g of protein]
 * Valid: as `calciumValidity`. Uncertainty: standard deviation 2.5 mg/g. Our own construction, not a published rule: a test
 * piece in hot water decides.
 * @throws InputError outside pH 4.6 to 6.8
 * @source Lee (2017), J. Milk Sci. Biotechnol. 35:85, Tables 1 and 5, seen; Remillard and Britten (2011), abstract seen
 */
export function insolubleCalciumMgPerG(input: { readonly drainPH: number; readonly curdPH: number }): number {
  requireWithin(calciumValidity, { drainPH: input.drainPH, curdPH: input.curdPH });
  const soluble = between(UPPER_SOLUBLE, input.drainPH);
  const atDrain = INSOLUBLE_AT_START_MG_PER_G * (1 - (soluble - SOLUBLE_AT_START) / (1 - SOLUBLE_AT_START));
  return atDrain * (1 - LOSS_PER_PH_AFTER_DRAINING * Math.max(0, input.drainPH - input.curdPH));
}

/**
 * Total calcium above which curd of this pH tears instead of stretching.
 *
 * Straight lines between four published points; held flat below pH 5.2 and above 5.9.
 *
 * @param curdPH  [-], 4.6 to 6.8
 * @returns total calcium [mg per g of protein]
 * Valid: as `calciumValidity`; measured from pH 5.2 to 5.9. Uncertainty: 2 to 3 mg/g.
 * @throws InputError outside pH 4.6 to 6.8
 * @source Guinee et al. (2002), J. Dairy Sci. 85:1655; Sheehan and Guinee (2004); abstracts seen
 */
export function stretchCalciumLimitMgPerG(curdPH: number): number {
  requireWithin(calciumValidity, { curdPH });
  return between(STRETCH_LINE, curdPH);
}
