/**
 * Drawing whey and pouring hot water in its place: what the vat comes to, how much water a target needs, how hot.
 * Counts what a plain mixing sum forgets: the pot's metal, the heat lost while drawing, pouring and stirring, and
 * that the water arrives cooler than the kettle. Left out: lumps of hot water before stirring (pour in portions).
 */
import { firstReached, rootBetween } from '../numbers/roots.ts';
import { InputError, outside, type Problem, type Validity } from '../numbers/validity.ts';
import { potHeatCapacityKJPerK, type Pot } from './pot.ts';
import { WATER_SPECIFIC_HEAT_KJ_PER_KG_K } from './properties.ts';
import { lossAt, type LossCurve } from './vat.ts';
import { liquidKgPerL, liquidSpecificHeatKJPerKgK } from './vat-liquid.ts';

export interface WashMinutes {
  readonly drainMin: number;
  readonly pourMin: number;
  readonly stirMin: number;
}

export interface WashInput {
  /** Curd and whey before drawing. */
  readonly vatL: number;
  readonly vatC: number;
  /** Whey taken out. */
  readonly drawL: number;
  /** Water in the kettle. */
  readonly waterC: number;
  readonly pot: Pick<Pot, 'massKg' | 'material'>;
  readonly roomC: number;
  readonly loss: LossCurve;
  /** How much cooler the water is when it meets the whey than in the kettle; 2.5 where not learned. */
  readonly arrivalDropC?: number;
  readonly minutes?: WashMinutes;
}

/** Kettle to whey [K]: our own estimate until a kitchen's own is learned; standard deviation 1.5 K. */
export const ARRIVAL_DROP_C = { mean: 2.5, sd: 1.5 } as const;
export const WASH_MINUTES: WashMinutes = { drainMin: 5, pourMin: 3, stirMin: 3 }; // common practice (no source)

/** Litres of lactose-bearing serum per litre of milk: what is left beside fat and casein (our own estimate). */
const SERUM_FRACTION = 0.94;
/** Most whey that can be drawn: the curd itself takes the rest (our own limit). */
const MOST_DRAWN_FRACTION = 0.85;

const HERE = 'our own limits: curd in whey, water below boiling';

export const washValidity: Validity = {
  vatL: { low: 0.5, high: 1000, unit: 'L', source: HERE },
  vatC: { low: 5, high: 70, unit: '°C', source: HERE },
  drawL: { low: 0, high: 850, unit: 'L', source: HERE },
  waterC: { low: 1, high: 100, unit: '°C', source: HERE },
  roomC: { low: 0, high: 45, unit: '°C', source: HERE },
  arrivalDropC: { low: 0, high: 15, unit: 'K', source: HERE },
  addL: { low: 0, high: 1000, unit: 'L', source: HERE },
};

const PIECES = 12; // our own choice: within 0.01 K of finer steps

/** Heat that a volume of water brings per kelvin [kJ/K]; hot water is lighter than its litres. */
export function waterHeatCapacityKJPerK(input: { readonly volumeL: number; readonly waterC: number }): number {
  const density = liquidKgPerL({ liquid: 'water', temperatureC: input.waterC });
  return input.volumeL * density * WATER_SPECIFIC_HEAT_KJ_PER_KG_K;
}

const vatKJPerK = (input: WashInput): number =>
  input.vatL *
  liquidKgPerL({ liquid: 'milk', temperatureC: input.vatC }) *
  liquidSpecificHeatKJPerKgK({ liquid: 'milk', temperatureC: input.vatC });

const wheyKJPerK = (input: WashInput): number =>
  input.drawL *
  liquidKgPerL({ liquid: 'whey', temperatureC: input.vatC }) *
  liquidSpecificHeatKJPerKgK({ liquid: 'whey', temperatureC: input.vatC });

const arrivalC = (input: WashInput): number => input.waterC - (input.arrivalDropC ?? ARRIVAL_DROP_C.mean);

/** What plain mixing gives: true heat capacities and densities, but no metal, no losses and no drop on arrival [°C]. */
export function idealWashC(input: WashInput & { readonly addL: number }): number {
  const left = vatKJPerK(input) - wheyKJPerK(input);
  const water = waterHeatCapacityKJPerK({ volumeL: input.addL, waterC: input.waterC });
  return (left * input.vatC + water * input.waterC) / (left + water);
}

/** One portion of hot water: how much, and what the thermometer should say after stirring it in. */
export interface WashPortion {
  readonly addL: number;
  readonly pouredL: number;
  readonly mixC: number;
}

/** Temperatures along a wash. */
export interface WashCourse {
  readonly afterDrawC: number;
  readonly portions: readonly WashPortion[];
  readonly finalC: number;
}

/** Kernel of `washCourse`: no checks. */
export function washKernel(input: WashInput & { readonly addL: number; readonly portions?: number }): WashCourse {
  const { addL, roomC, loss } = input;
  const minutes = input.minutes ?? WASH_MINUTES;
  const pot = potHeatCapacityKJPerK(input.pot);
  const whey = wheyKJPerK(input);
  let heatKJPerK = vatKJPerK(input) + pot;
  let temperatureC = input.vatC;
  const cool = (overMin: number): void => {
    // Exact at the loss of this moment, so that a shallow pot comes to the room and does not swing past it.
    temperatureC =
      roomC + (temperatureC - roomC) * Math.exp((-0.06 * lossAt(loss, temperatureC) * overMin) / heatKJPerK);
  };
  for (let i = 0; i < PIECES; i++) {
    heatKJPerK -= whey / PIECES;
    cool(minutes.drainMin / PIECES);
  }
  const afterDrawC = temperatureC;
  const count = input.portions ?? PIECES;
  const arriving = arrivalC(input);
  const portion = waterHeatCapacityKJPerK({ volumeL: addL / count, waterC: Math.max(arriving, 0) });
  const portions: WashPortion[] = [];
  for (let i = 0; i < count; i++) {
    temperatureC = (heatKJPerK * temperatureC + portion * arriving) / (heatKJPerK + portion);
    heatKJPerK += portion;
    cool(minutes.pourMin / count);
    portions.push({ addL: addL / count, pouredL: (addL * (i + 1)) / count, mixC: temperatureC });
  }
  for (let i = 0; i < PIECES; i++) cool(minutes.stirMin / PIECES);
  return { afterDrawC, portions, finalC: temperatureC };
}

/**
 * What a vat comes to when whey is drawn and hot water poured in.
 *
 * Heat balance step by step: drawing over minutes with loss from a shrinking mass, water in portions at
 * T_kettle - drop, stirring; C_left = m0 cp - m_whey cp_whey + C_pot.
 *
 * @param input.vatL  curd and whey [L], 0.5 to 1000
 * @param input.vatC  [°C], 5 to 70
 * @param input.drawL  whey drawn [L], up to 85 % of the vat
 * @param input.addL  water poured [L], 0 to 1000
 * @param input.waterC  in the kettle [°C], 1 to 100
 * @param input.roomC  [°C], 0 to 45
 * @param input.arrivalDropC  kettle to whey [K], 0 to 15; 2.5 where not learned
 * @param input.loss  from `lossCurve` or `constantLoss`
 * @param input.portions  how many to pour; 12 where not given
 * @returns temperatures after drawing, after each portion and at the end [°C]
 * Valid: as `washValidity`, stirred. Uncertainty: 0.8 K before the drop is learned, 0.5 K after (our own estimate).
 * @throws InputError naming the field, its value and the range
 * @source heat balance; trade check: 30 % of the vat at 37 °C replaced by 60 °C water gives about 42 °C (common practice, no source)
 */
export function washCourse(input: WashInput & { readonly addL: number; readonly portions?: number }): WashCourse {
  requireWash(input, input.addL);
  return washKernel(input);
}

/**
 * How much water brings the washed vat to a target: the inverse of `washCourse`.
 *
 * @param input  as `washCourse` without `addL`
 * @param input.targetC  after pouring and stirring [°C]
 * @returns litres [L]; 0 where the vat is there already
 * Valid: as `washValidity`. Uncertainty: about 15 % of the water before the drop is learned (our own estimate).
 * @throws InputError with code `unreachable` when no amount of this water gets there
 * @source as `washCourse`
 */
export function washWaterL(input: WashInput & { readonly targetC: number }): number {
  requireWash(input, 0);
  const { targetC } = input;
  const finalC = (addL: number): number => washKernel({ ...input, addL }).finalC;
  const without = finalC(0);
  const most = 5 * input.vatL;
  const isHotter = arrivalC(input) > without;
  if (isHotter ? targetC <= without : targetC >= without) return 0;
  const far = finalC(most);
  if (isHotter ? far < targetC : far > targetC) {
    throw new InputError([
      {
        code: 'unreachable',
        field: 'targetC',
        value: targetC,
        unit: '°C',
        expected: `between ${without.toFixed(1)} and ${far.toFixed(1)} °C with water at ${input.waterC} °C`,
        remedy: 'Use hotter water, or draw more whey.',
      },
    ]);
  }
  return rootBetween({ f: (addL) => finalC(addL) - targetC, low: 0, high: most, tolerance: 1e-6 });
}

/**
 * How hot the kettle must be so that filling the vat to the old line lands on the target.
 *
 * @param input  as `washWaterL`; its `waterC` is not used
 * @returns kettle temperature [°C], or null when boiling water would not do, or ice water would be too warm
 * Valid: as `washValidity`. Uncertainty: 2.5 K before the drop is learned (our own estimate).
 * @throws InputError naming the field, its value and the range
 * @source as `washCourse`
 */
export function waterCForFullTopUp(input: Omit<WashInput, 'waterC'> & { readonly targetC: number }): number | null {
  const at = (waterC: number): number => washKernel({ ...input, waterC, addL: input.drawL }).finalC;
  requireWash({ ...input, waterC: 60 }, 0);
  if (input.drawL === 0 || at(1) > input.targetC) return null;
  return firstReached({ isReached: (waterC) => at(waterC) >= input.targetC, low: 1, high: 100, tolerance: 1e-6 });
}

/** What washing leaves of the lactose. */
export interface LactoseLeft {
  /** Share of the vat's lactose that was not drawn off. */
  readonly leftFraction: number;
  /** Lactose in the whey afterwards, once curd and whey have evened out, relative to before. */
  readonly strengthFraction: number;
}

/**
 * Lactose left after a wash: drawing removes it, water only thins it.
 *
 * left = 1 - draw / serum; strength = left serum / (serum - draw + add); serum = 0.94 of the vat.
 *
 * @param input.vatL  curd and whey [L]
 * @param input.drawL  whey drawn [L]
 * @param input.addL  water added [L]
 * @returns two fractions, 0 to 1
 * Valid: lactose even between whey and curd's moisture. Uncertainty: 2 % (serum share, our own estimate).
 * @source mass balance
 */
export function lactoseLeft(input: {
  readonly vatL: number;
  readonly drawL: number;
  readonly addL: number;
}): LactoseLeft {
  const serumL = SERUM_FRACTION * input.vatL;
  const leftL = Math.max(serumL - input.drawL, 0);
  return { leftFraction: leftL / serumL, strengthFraction: leftL / Math.max(leftL + input.addL, 1e-9) };
}

function requireWash(input: WashInput, addL: number): void {
  const { vatL, vatC, drawL, waterC, roomC, arrivalDropC } = input;
  const problems: Problem[] = outside(washValidity, { vatL, vatC, drawL, waterC, roomC, arrivalDropC, addL });
  if (problems.length === 0 && drawL > MOST_DRAWN_FRACTION * vatL) {
    problems.push({
      code: 'impossible',
      field: 'drawL',
      value: drawL,
      unit: 'L',
      expected: `up to ${(MOST_DRAWN_FRACTION * vatL).toFixed(1)} L, the whey there is beside the curd`,
      remedy: 'Draw less, or check whether the percentage was of the vat or of the whey.',
    });
  }
  if (problems.length > 0) throw new InputError(problems);
}
