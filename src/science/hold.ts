/**
 * Hours of keeping warm: where the milk ends, and for a pot standing in a sink of warm water how often and with how
 * much hot water the sink is topped up. Left out: somebody lifting the lid, a lamp or oven that is switched on and off.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import { BATH_EXCHANGE_W_PER_M2_K } from './heater-bath.ts';
import type { Pot } from './pot.ts';
import { openSurfaceLoss } from './vat-air.ts';
import { lossAt, lossCurve, ROOM_HUMIDITY_PERCENT, vatLossKernel, type Keeping, type LossCurve } from './vat.ts';
import { vatHeatCapacityKJPerK, type VatLiquid } from './vat-liquid.ts';
import { waterHeatCapacityKJPerK } from './wash.ts';

export interface HoldInput {
  readonly pot: Pot;
  readonly volumeL: number;
  readonly liquid?: VatLiquid;
  readonly atC: number;
  readonly minutes: number;
  readonly roomC: number;
  readonly keeping: Keeping;
  /** Water in the sink; twice the milk where not given. */
  readonly sinkL?: number;
  /** What the sink is filled with and kept at; the milk's temperature where not given. */
  readonly sinkC?: number;
  /** Of the water that the sink is topped up with; 60 where not given. */
  readonly hotC?: number;
  /** Instead of the cover's own loss, where it was measured. */
  readonly loss?: LossCurve;
}

export interface HoldPoint {
  readonly minute: number;
  readonly temperatureC: number;
  readonly sinkC: number | null;
}

/** Hot water for the sink; the same amount of cooled water is dipped out first. */
export interface SinkTopUp {
  readonly minute: number;
  readonly waterL: number;
  readonly waterC: number;
}

export interface Hold {
  readonly endC: number;
  readonly curve: readonly HoldPoint[];
  readonly topUps: readonly SinkTopUp[];
  /** Minutes until the milk is a kelvin below where it started; null when it stays within. */
  readonly oneKelvinDownMin: number | null;
}

const STEP_MIN = 0.5; // our own choice: far below the pot's and the sink's time constants
const CURVE_MIN = 5; // our own choice: a point every five minutes
const SINK_FALL_C = 1.5; // our own choice: top up when the sink has fallen this far
const HOT_TAP_C = 60; // common practice (no source): hot tap or kettle mixed with tap water
const SINK_DEPTH_M = 0.15; // common practice (no source)
const SINK_WALL_W_PER_K_M2 = 5; // our own estimate: thin metal below a counter

const HERE = 'our own limits: two days of keeping warm';

export const holdValidity: Validity = {
  volumeL: { low: 0.5, high: 1000, unit: 'L', source: HERE },
  atC: { low: 2, high: 98, unit: '°C', source: HERE },
  minutes: { low: 0, high: 2880, unit: 'min', source: HERE },
  roomC: { low: 0, high: 45, unit: '°C', source: HERE },
  sinkL: { low: 0.5, high: 5000, unit: 'L', source: HERE },
  sinkC: { low: 5, high: 95, unit: '°C', source: HERE },
};

/**
 * Where milk ends that is kept warm for a while, and how.
 *
 * C dT/dt = -UA(T)(T - T_room). In a sink: two lumps, the sink losing from its open surface and wall, topped up with hot
 * water by dipping out the same amount each time it has fallen 1.5 K.
 *
 * @param input.pot  from `potFor`
 * @param input.volumeL  milk [L], 0.5 to 1000
 * @param input.atC  start [°C], 2 to 98
 * @param input.minutes  how long [min], 0 to 2880
 * @param input.roomC  [°C], 0 to 45
 * @param input.keeping  open, lid, towels, sink or oven
 * @param input.sinkL  water in the sink [L], 0.5 to 5000; twice the milk where not given
 * @param input.sinkC  of that water [°C], 5 to 95; as the milk where not given
 * @returns end, curve (a point every five minutes and the last), top-ups, and when it is a kelvin down
 * Valid: as `holdValidity`, still air. Uncertainty: 10 % of the fall open or lidded, 40 % in towels, sink or oven.
 * @throws InputError naming the field, its value and the range
 * @source heat balance; keeping factors common practice (no source)
 */
export function keepWarm(input: HoldInput): Hold {
  const { pot, volumeL, atC, minutes, roomC, keeping } = input;
  requireWithin(holdValidity, { volumeL, atC, minutes, roomC, sinkL: input.sinkL, sinkC: input.sinkC });
  const milkKJPerK = vatHeatCapacityKJPerK({ liquid: input.liquid ?? 'milk', volumeL, temperatureC: atC, pot });
  const loss = input.loss ?? lossCurve({ pot, volumeL, roomC, keeping });
  const sink = keeping === 'sink' ? sinkFor(input) : null;
  let temperatureC = atC;
  let sinkC = sink?.keptC ?? null;
  let oneKelvinDownMin: number | null = null;
  const curve: HoldPoint[] = [{ minute: 0, temperatureC, sinkC }];
  const topUps: SinkTopUp[] = [];
  const steps = Math.ceil(minutes / STEP_MIN);
  const stepMin = steps === 0 ? 0 : minutes / steps;
  for (let i = 1; i <= steps; i++) {
    const minute = i * stepMin;
    if (sink === null || sinkC === null) {
      const half = cooled({
        temperatureC,
        roomC,
        milkKJPerK,
        lossWPerK: lossAt(loss, temperatureC),
        stepMin: stepMin / 2,
      });
      temperatureC = cooled({ temperatureC, roomC, milkKJPerK, lossWPerK: lossAt(loss, half), stepMin });
    } else {
      const next = sink.step({ milkC: temperatureC, sinkC, milkKJPerK, stepMin });
      temperatureC = next.milkC;
      sinkC = next.sinkC;
      if (sinkC < sink.keptC - SINK_FALL_C && minute < minutes) {
        const waterL = (sink.litres * (sink.keptC - sinkC)) / (sink.hotC - sinkC);
        topUps.push({ minute, waterL, waterC: sink.hotC });
        sinkC = sink.keptC;
      }
    }
    if (oneKelvinDownMin === null && temperatureC <= atC - 1) oneKelvinDownMin = minute;
    if (i === steps || Math.floor(minute / CURVE_MIN) > Math.floor((minute - stepMin) / CURVE_MIN)) {
      curve.push({ minute, temperatureC, sinkC });
    }
  }
  return { endC: temperatureC, curve, topUps, oneKelvinDownMin };
}

/** After a step at this loss per kelvin, exactly: a quick pot comes to the room and does not swing past it. */
const cooled = (of: {
  temperatureC: number;
  roomC: number;
  milkKJPerK: number;
  lossWPerK: number;
  stepMin: number;
}): number => of.roomC + (of.temperatureC - of.roomC) * Math.exp((-0.06 * of.lossWPerK * of.stepMin) / of.milkKJPerK);

interface Sink {
  readonly litres: number;
  readonly keptC: number;
  readonly hotC: number;
  step(at: { milkC: number; sinkC: number; milkKJPerK: number; stepMin: number }): { milkC: number; sinkC: number };
}

function sinkFor(input: HoldInput): Sink {
  const { pot, volumeL, roomC } = input;
  const litres = input.sinkL ?? 2 * volumeL;
  const keptC = input.sinkC ?? input.atC;
  const sinkKJPerK = waterHeatCapacityKJPerK({ volumeL: litres, waterC: keptC });
  const potFloorM2 = (Math.PI / 4) * (pot.insideMm / 1000) ** 2;
  const sinkAreaM2 = Math.max((litres / 1000 + potFloorM2 * SINK_DEPTH_M) / SINK_DEPTH_M, 1.3 * potFloorM2);
  const openM2 = sinkAreaM2 - potFloorM2;
  const wallM2 = 4 * Math.sqrt(sinkAreaM2) * SINK_DEPTH_M + sinkAreaM2;
  const wettedM = Math.min(SINK_DEPTH_M, volumeL / 1000 / potFloorM2);
  const exchangeWPerK = BATH_EXCHANGE_W_PER_M2_K * (potFloorM2 + Math.PI * (pot.insideMm / 1000) * wettedM);
  const diameterM = Math.sqrt((4 * openM2) / Math.PI);
  // The pot stands lidded: only its top faces the room.
  const lid = vatLossKernel({ pot, volumeL, temperatureC: Math.max(keptC, roomC + 4), roomC, keeping: 'lid' });
  const topWPerK = lid.topW / (Math.max(keptC, roomC + 4) - roomC);
  const atKept = openSurfaceLoss({ surfaceC: keptC, roomC, relativeHumidityPercent: ROOM_HUMIDITY_PERCENT, diameterM });
  const fluxWPerM2 = atKept.evaporationWPerM2 + atKept.convectionWPerM2 + atKept.radiationWPerM2;
  const gap = keptC - roomC;
  // Linear about the kept temperature: the sink moves by a few kelvins only.
  const sinkWPerK = Math.abs(gap) < 1 ? 10 * openM2 : (openM2 * fluxWPerM2) / gap + SINK_WALL_W_PER_K_M2 * wallM2;
  return {
    litres,
    keptC,
    hotC: Math.max(input.hotC ?? HOT_TAP_C, keptC + 5),
    step: ({ milkC, sinkC, milkKJPerK, stepMin }) => {
      // Exchange is taken implicitly: it is the quick one.
      const f = 0.06 * stepMin;
      const a = (f * exchangeWPerK) / milkKJPerK;
      const b = (f * exchangeWPerK) / sinkKJPerK;
      const milk = milkC - (f * topWPerK * (milkC - roomC)) / milkKJPerK;
      const bath = sinkC - (f * sinkWPerK * (sinkC - roomC)) / sinkKJPerK;
      const determinant = 1 + a + b;
      return { milkC: (milk * (1 + b) + bath * a) / determinant, sinkC: (bath * (1 + a) + milk * b) / determinant };
    },
  };
}
