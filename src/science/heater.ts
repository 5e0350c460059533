/**
 * Warming the vat: how long, whether at all, and where to turn the burner off so that it coasts to the target.
 * A burner counts as the heat that reaches the milk, not its nameplate. Coasting is one learned number, the seconds
 * of full heat still to come after turning off. Left out: layers in milk that is not stirred, scorching.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import { lossAt, type LossCurve } from './vat.ts';

export type Burner = 'small' | 'medium' | 'large';

/** A quantity known as a median and the standard deviation of its logarithm. */
export interface LogNormal {
  readonly median: number;
  readonly logSd: number;
}

/**
 * Heat that reaches the milk [W], before it is learned. Nameplates of 1, 1.8 and 3 kW (common practice, no source) at
 * about 50 %: gas 32 to 44 %, electric 75 to 80 %, induction 74 to 84 % (press measurement seen; the rest at second hand).
 */
export const BURNER_W: Readonly<Record<Burner, LogNormal>> = {
  small: { median: 500, logSd: 0.35 },
  medium: { median: 900, logSd: 0.4 },
  large: { median: 1500, logSd: 0.4 },
};

/** Seconds of full heat still to come from element, grate and base: our own estimate until it is learned. */
export const COAST_S: LogNormal = { median: 70, logSd: 0.6 };

export interface HeatUpInput {
  readonly fromC: number;
  readonly toC: number;
  readonly roomC: number;
  /** Milk and pot [kJ/K]. */
  readonly heatCapacityKJPerK: number;
  /** Heat that reaches the milk [W]. */
  readonly heaterW: number;
  readonly loss: LossCurve;
}

const HERE = 'our own limits: milk between freezing and boiling';

export const heaterValidity: Validity = {
  fromC: { low: 0, high: 98, unit: '°C', source: HERE },
  toC: { low: 0, high: 98, unit: '°C', source: HERE },
  roomC: { low: -5, high: 45, unit: '°C', source: HERE },
  heatCapacityKJPerK: { low: 0.1, high: 10_000, unit: 'kJ/K', source: HERE },
  heaterW: { low: 0, high: 200_000, unit: 'W', source: HERE },
  coastS: { low: 0, high: 1800, unit: 's', source: HERE },
};

const PIECES = 24; // our own choice: within 1e-4 of the fine integral for the loss curves of `vat.ts`

/** Kernel of `heatUpMin`: no checks; Infinity where the target is never reached. Works for cooling too. */
export function heatUpKernel(input: HeatUpInput): number {
  const { fromC, toC, roomC, heatCapacityKJPerK, heaterW, loss } = input;
  const step = (toC - fromC) / PIECES;
  let seconds = 0;
  for (let i = 0; i < PIECES; i++) {
    // Exact for a constant loss over each short piece: t = C/UA ln(rate at its start / rate at its end).
    const start = fromC + i * step;
    const wPerK = lossAt(loss, start + step / 2);
    const atStart = heaterW - wPerK * (start - roomC);
    const atEnd = heaterW - wPerK * (start + step - roomC);
    if (atStart * step <= 0 || atEnd * step <= 0) return step === 0 ? 0 : Infinity;
    const change = (wPerK * step) / atStart;
    const lag = Math.abs(change) < 1e-6 ? step / atStart : Math.log(atStart / atEnd) / wPerK;
    seconds += heatCapacityKJPerK * 1000 * lag;
  }
  return seconds / 60;
}

/**
 * Minutes of heating that bring the vat from one temperature to another.
 *
 * C dT/dt = P - UA(T)(T - T_room); for constant UA, t = (C/UA) ln[(T_inf - T0)/(T_inf - T1)], T_inf = T_room + P/UA.
 *
 * @param input.fromC  now [°C], 0 to 98
 * @param input.toC  target [°C], 0 to 98
 * @param input.roomC  room [°C], -5 to 45
 * @param input.heatCapacityKJPerK  milk and pot [kJ/K], 0.1 to 10000
 * @param input.heaterW  heat that reaches the milk [W], 0 to 200000
 * @param input.loss  from `lossCurve` or `constantLoss`
 * @returns minutes [min]; Infinity when the heater can never reach it
 * Valid: as `heaterValidity`, stirred. Uncertainty: that of the heater, a third before it is learned, 3 % after.
 * @throws InputError naming the field, its value and the range
 * @source energy balance
 */
export function heatUpMin(input: HeatUpInput): number {
  requireWithin(heaterValidity, {
    fromC: input.fromC,
    toC: input.toC,
    roomC: input.roomC,
    heatCapacityKJPerK: input.heatCapacityKJPerK,
    heaterW: input.heaterW,
  });
  return heatUpKernel(input);
}

/** The temperature a heater ends at when left on for ever [°C]; 150 where it would boil dry first. */
export function steadyC(input: { readonly roomC: number; readonly heaterW: number; readonly loss: LossCurve }): number {
  let temperatureC = input.roomC;
  while (temperatureC < 150 && input.heaterW > lossAt(input.loss, temperatureC) * (temperatureC - input.roomC)) {
    temperatureC += 0.1;
  }
  return temperatureC;
}

export interface CoastInput {
  /** Heat that reached the milk before turning off [W]. */
  readonly heaterW: number;
  /** Loss to the room at that temperature [W]. */
  readonly lossW: number;
  readonly heatCapacityKJPerK: number;
  /** Seconds of full heat still stored in element and base [s]. */
  readonly coastS: number;
  /** How long the burner was on [min]; a short burst stores less. Long where not given. */
  readonly onMin?: number;
}

/**
 * How far the milk still rises after the burner is turned off.
 *
 * The store gives P exp(-t/tau); the peak is where that equals the loss, so
 * rise = tau (P - Q - Q ln(P/Q)) / C, with P = P_full (1 - exp(-t_on/tau)).
 *
 * @param input  as `CoastInput`
 * @returns rise [K], 0 or more
 * Valid: one store of heat that fades exponentially. Uncertainty: a factor of 1.8 before it is learned (our own estimate).
 * @source our own model after the base's heat balance (C_base (T_base - T) / C_vat)
 */
export function coastRiseC(input: CoastInput): number {
  const { lossW, heatCapacityKJPerK, coastS } = input;
  if (coastS <= 0) return 0;
  const stored = input.onMin === undefined ? 1 : 1 - Math.exp((-60 * input.onMin) / coastS);
  const powerW = input.heaterW * stored;
  if (powerW <= 0 || powerW <= lossW) return 0;
  const kept = lossW > 1e-12 * powerW ? powerW - lossW - lossW * Math.log(powerW / lossW) : powerW;
  return (coastS * kept) / (heatCapacityKJPerK * 1000);
}

/**
 * Where to turn the burner off so that the milk coasts to its target.
 *
 * T_off = T_target - rise, never below where heating began.
 *
 * @param input  as `HeatUpInput`
 * @param input.coastS  seconds of heat still to come [s], 0 to 1800; 70 until learned
 * @returns temperature to turn off at [°C]
 * Valid: as `heaterValidity`. Uncertainty: 1 K before it is learned, 0.3 K after one overshoot was read (our own estimate).
 * @throws InputError naming the field, its value and the range
 * @source our own model, see `coastRiseC`
 */
export function heatOffC(input: HeatUpInput & { readonly coastS?: number }): number {
  const coastS = input.coastS ?? COAST_S.median;
  const onMin = heatUpMin(input);
  requireWithin(heaterValidity, { coastS });
  const lossW = Math.max(lossAt(input.loss, input.toC) * (input.toC - input.roomC), 0);
  const rise = coastRiseC({
    heaterW: input.heaterW,
    lossW,
    heatCapacityKJPerK: input.heatCapacityKJPerK,
    coastS,
    onMin,
  });
  return Math.max(input.fromC, input.toC - rise);
}

/**
 * The coasting number after an overshoot was read: log-normal prior and reading, weighed by their precision.
 *
 * @param input.prior  median and spread of the coasting seconds so far
 * @param input.riseC  peak minus temperature at turning off [K]
 * @param input.heaterW  heat that reached the milk [W]
 * @param input.lossW  loss to the room at that temperature [W]
 * @param input.heatCapacityKJPerK  milk and pot [kJ/K]
 * @param input.thermometerSdC  of one reading [K]; 0.3 where not given
 * @returns narrower median and spread
 * Valid: rises above the thermometer's own error; smaller ones only bound it. Uncertainty: as returned.
 * @source our own: closed-form update of a log-normal
 */
export function learnCoast(
  input: Omit<CoastInput, 'coastS'> & {
    readonly prior: LogNormal;
    readonly riseC: number;
    readonly thermometerSdC?: number;
  },
): LogNormal {
  const { prior } = input;
  const perSecond = coastRiseC({ ...input, coastS: 1 });
  if (perSecond <= 0) return prior;
  const sd = Math.SQRT2 * (input.thermometerSdC ?? 0.3);
  const rise = Math.max(input.riseC, 0.5 * sd);
  const readLog = Math.log(rise / perSecond);
  const readLogSd = Math.hypot(sd / rise, 0.1); // 0.1: our own allowance for stirring and where the probe hangs
  const weightPrior = 1 / prior.logSd ** 2;
  const weightRead = 1 / readLogSd ** 2;
  const total = weightPrior + weightRead;
  return {
    median: Math.exp((Math.log(prior.median) * weightPrior + readLog * weightRead) / total),
    logSd: 1 / Math.sqrt(total),
  };
}
