/**
 * The vat as one warm lump: what it loses to the room by size, temperature and cover, and how fast it drifts.
 * `vatLossW` is the whole balance; `lossCurve` condenses it to three numbers so that a simulator can ask it a
 * million times. Left out: draughts (they can double an open pot's loss), layers in unstirred milk.
 */
import { firstReached } from '../numbers/roots.ts';
import { requireWithin, type Validity } from '../numbers/validity.ts';
import { POT_EMISSIVITY, type Pot } from './pot.ts';
import { lidLossWPerM2, openSurfaceLoss, wallLossWPerM2 } from './vat-air.ts';

/** How a pot is kept warm between heatings. */
export type Keeping = 'open' | 'lid' | 'towels' | 'sink' | 'oven';

export interface VatInput {
  readonly pot: Pot;
  readonly volumeL: number;
  readonly temperatureC: number;
  readonly roomC: number;
  readonly relativeHumidityPercent?: number;
  readonly keeping: Keeping;
}

/** Heat lost to the room [W], by where it leaves. */
export interface VatLoss {
  readonly topW: number;
  readonly sideW: number;
  readonly baseW: number;
  readonly totalW: number;
}

export const ROOM_HUMIDITY_PERCENT = 50; // common practice (no source): a heated kitchen
const BASE_W_PER_M2_K = 3; // our own estimate: pot on a cold hob
const LID_AIR_W_PER_M2_K = 60; // our own estimate: milk to lid through moist air with the lid dripping
const DRY_WALL_SHARE = 0.5; // our own estimate: the wall above the milk is half as warm

/**
 * Loss relative to the same pot under its lid. Towels: derived, two turns and a top of 10 mm towelling (0.25 m2 K/W)
 * take 7 W/(m2 K) to 2.6, half given back for gaps. Sink: the bath is kept within 2 K by hot water, so only the top loses.
 * Oven: off, lamp on or warmed to about 40 °C, so that the air stands near 32 °C. All three: common practice (no source).
 */
const KEEPING_FACTOR: Readonly<Record<Keeping, number>> = { open: 1, lid: 1, towels: 0.55, sink: 0.35, oven: 0.3 };

export const vatValidity: Validity = {
  volumeL: {
    low: 0.5,
    high: 1000,
    unit: 'L',
    source: 'our own limits: checked against tank tables and 2 to 500 L pots',
  },
  temperatureC: { low: 2, high: 98, unit: '°C', source: 'liquid milk below boiling' },
  roomC: { low: 0, high: 45, unit: '°C', source: 'still air; engineering table of open tanks, 15.6 °C' },
  relativeHumidityPercent: { low: 0, high: 100, unit: '%', source: 'definition' },
};

/** Kernel of `vatLossW`: no checks. */
export function vatLossKernel(input: VatInput): VatLoss {
  const { pot, volumeL, temperatureC, roomC, keeping } = input;
  const relativeHumidityPercent = input.relativeHumidityPercent ?? ROOM_HUMIDITY_PERCENT;
  const diameterM = pot.insideMm / 1000;
  const emissivity = POT_EMISSIVITY[pot.material];
  const floorM2 = (Math.PI / 4) * diameterM * diameterM;
  const depthM = Math.max(volumeL / 1000 / floorM2, 0.01);
  const dryM = Math.max(pot.heightMm / 1000 - depthM, 0);
  const factor = KEEPING_FACTOR[keeping];
  const open =
    keeping === 'open' ? openSurfaceLoss({ surfaceC: temperatureC, roomC, relativeHumidityPercent, diameterM }) : null;
  const topFlux =
    open === null
      ? lidFlux({ temperatureC, roomC, diameterM, emissivity })
      : open.evaporationWPerM2 + open.convectionWPerM2 + open.radiationWPerM2;
  const wallFlux = wallLossWPerM2({ wallC: temperatureC, roomC, heightM: depthM, emissivity });
  const topW = factor * topFlux * floorM2;
  const sideW = factor * wallFlux * Math.PI * diameterM * (depthM + DRY_WALL_SHARE * dryM);
  const baseW = factor * BASE_W_PER_M2_K * floorM2 * (temperatureC - roomC);
  return { topW, sideW, baseW, totalW: topW + sideW + baseW };
}

/** Through a lid nothing evaporates on balance; its temperature is where what reaches it equals what it gives off. */
function lidFlux(input: { temperatureC: number; roomC: number; diameterM: number; emissivity: number }): number {
  const { temperatureC, roomC, diameterM, emissivity } = input;
  const reaching = (lidC: number): number => LID_AIR_W_PER_M2_K * (temperatureC - lidC);
  const leaving = (lidC: number): number => lidLossWPerM2({ lidC, roomC, diameterM, emissivity });
  const low = Math.min(temperatureC, roomC);
  const high = Math.max(temperatureC, roomC);
  const lidC = firstReached({ isReached: (x) => leaving(x) >= reaching(x), low, high, tolerance: 1e-4 }) ?? high;
  return reaching(lidC);
}

/**
 * Heat that a vat of warm milk loses to a still room.
 *
 * Open: evaporation, convection and radiation from the surface; lid: what passes to and from the lid; side: natural
 * convection and radiation, the dry wall at half; base 3 W/(m2 K). Towels, sink and oven: a share of the lidded loss.
 *
 * @param input.pot  from `potFor`
 * @param input.volumeL  milk in it [L], 0.5 to 1000
 * @param input.temperatureC  of the milk [°C], 2 to 98
 * @param input.roomC  of the room [°C], 0 to 45
 * @param input.relativeHumidityPercent  of the room [%], 0 to 100; 50 where not given
 * @param input.keeping  open, lid, towels, sink or oven
 * @returns loss in watts by place and in total, negative where the milk gains heat
 * Valid: as `vatValidity`, still air. Uncertainty: 10 % above 37 °C, 20 % at 32 °C; towels, sink and oven 40 % (our own estimate).
 * @throws InputError naming the field, its value and the range
 * @source as `openSurfaceLoss` and `wallLossWPerM2`; keeping factors common practice (no source)
 */
export function vatLossW(input: VatInput): VatLoss {
  requireWithin(vatValidity, {
    volumeL: input.volumeL,
    temperatureC: input.temperatureC,
    roomC: input.roomC,
    relativeHumidityPercent: input.relativeHumidityPercent,
  });
  return vatLossKernel(input);
}

/** Loss per kelvin between milk and room [W/K], as the full balance gives it at this temperature. */
export function lossWPerK(input: VatInput): number {
  requireWithin(vatValidity, { volumeL: input.volumeL, temperatureC: input.temperatureC, roomC: input.roomC });
  return lossPerKKernel(input);
}

function lossPerKKernel(input: VatInput): number {
  // Near room temperature watts over kelvins is 0/0 (an open pot still evaporates there): step out to 4 K, not into frost.
  const gap = input.temperatureC - input.roomC;
  const temperatureC = Math.abs(gap) < 4 ? input.roomC + (gap < 0 && input.roomC >= 4 ? -4 : 4) : input.temperatureC;
  return Math.max(vatLossKernel({ ...input, temperatureC }).totalW / (temperatureC - input.roomC), 0);
}

/** Loss per kelvin as a parabola about 37 °C: a + b d + c d^2 with d = T - 37. */
export interface LossCurve {
  readonly atBodyWPerK: number;
  readonly perK: number;
  readonly perK2: number;
}

const CURVE_NODES_C = [32, 37, 45, 55, 70, 90] as const; // our own choice: where milk, whey and stretch pots stand

/**
 * Condenses the full balance for one pot, fill, room and cover: least squares of W/K over 32 to 90 °C.
 * @param input  as for `vatLossW` without the temperature
 * @returns coefficients for `lossAt`
 * Valid: 32 to 90 °C, within 5 % of the loss, or of the loss at 37 °C where it is small (tested). Uncertainty: as `vatLossW`.
 * @throws InputError as `vatLossW`
 * @source our own fit
 */
export function lossCurve(input: Omit<VatInput, 'temperatureC'>): LossCurve {
  requireWithin(vatValidity, { volumeL: input.volumeL, roomC: input.roomC });
  // Pinned at 37 °C, where makes spend their hours; two unknowns from the other nodes.
  const atBodyWPerK = lossPerKKernel({ ...input, temperatureC: 37 });
  let s2 = 0;
  let s3 = 0;
  let s4 = 0;
  let sy = 0;
  let sy2 = 0;
  for (const temperatureC of CURVE_NODES_C) {
    const d = temperatureC - 37;
    const y = lossPerKKernel({ ...input, temperatureC }) - atBodyWPerK;
    s2 += d * d;
    s3 += d ** 3;
    s4 += d ** 4;
    sy += d * y;
    sy2 += d * d * y;
  }
  const determinant = s2 * s4 - s3 * s3;
  return {
    atBodyWPerK,
    perK: (sy * s4 - sy2 * s3) / determinant,
    perK2: (sy2 * s2 - sy * s3) / determinant,
  };
}

/** A constant loss as a curve, for a pot whose W/K was measured. */
export function constantLoss(lossWPerK: number): LossCurve {
  return { atBodyWPerK: lossWPerK, perK: 0, perK2: 0 };
}

/** Loss per kelvin [W/K] on a curve. Below 25 °C the curve is held: cold milk only draws heat through lid and wall. */
export function lossAt(curve: LossCurve, temperatureC: number): number {
  const d = (temperatureC < 25 ? 25 : temperatureC) - 37;
  const value = curve.atBodyWPerK + d * (curve.perK + d * curve.perK2);
  const least = 0.3 * curve.atBodyWPerK;
  return value > least ? value : least;
}

/** The same curve for a pot whose loss at one temperature is known better: scaled through that point. */
export function scaledLoss(curve: LossCurve, factor: number): LossCurve {
  return { atBodyWPerK: curve.atBodyWPerK * factor, perK: curve.perK * factor, perK2: curve.perK2 * factor };
}

/**
 * How fast the vat warms or cools: kernel for the simulator.
 *
 * dT/dt = (P - UA (T - T_room)) / C.
 *
 * @param state.temperatureC  [°C]
 * @param state.roomC  [°C]
 * @param state.heatCapacityKJPerK  milk, curd and pot [kJ/K]
 * @param state.lossWPerK  at this temperature, from `lossAt` [W/K]
 * @param state.heaterW  heat that reaches the milk [W]
 * @returns rate [K/min]
 * Valid: one stirred lump. Uncertainty: of the loss.
 * @source energy balance
 */
export function vatRateKPerMin(state: {
  readonly temperatureC: number;
  readonly roomC: number;
  readonly heatCapacityKJPerK: number;
  readonly lossWPerK: number;
  readonly heaterW: number;
}): number {
  return ((state.heaterW - state.lossWPerK * (state.temperatureC - state.roomC)) * 0.06) / state.heatCapacityKJPerK;
}
