import { ACID_STATE_SIZE } from '../src/science/acidification.ts';
import { TABLE_LAST_ROW, TABLE_STRIDE } from '../src/science/buffer.ts';
import { STIRRING_FACTOR } from '../src/science/syneresis.ts';
import type { Inputs } from '../src/forecast/inputs.ts';
import type { Vat } from '../src/forecast/vat-state.ts';
import { runClocked } from './clocked-make.ts';

/**
 * The clocked make of every member written down for the programs in C and Python: its constants, then every integration
 * step with what holds during it, what the vat holds before it where somebody changed that (a pour, a cut), and at last the
 * truth from steps of a quarter of a minute. Doubles in the machine's own order; `tape.h` names the places.
 */
export const PLACES = { constants: 36, record: 28 } as const;
const FINE_MIN = 0.25;

export interface Tape {
  readonly bytes: Uint8Array;
  /** Of every member, at its end: pH of the curd, temperature, share of whey. */
  readonly truth: readonly (readonly [pH: number, temperatureC: number, wheyFraction: number])[];
}

export function writeTape(input: { vat: Vat; members: readonly Inputs[]; stepMin: number }): Tape {
  const { vat, members, stepMin } = input;
  const numbers: number[] = [members.length, TABLE_LAST_ROW, TABLE_STRIDE];
  const first = members[0];
  if (first === undefined) throw new Error('a tape needs a member');
  numbers.push(...first.ground.buffer.rows);
  const truth: [number, number, number][] = [];
  for (const inputs of members) {
    runClocked(vat, inputs, FINE_MIN);
    truth.push([vat.acid[1] ?? 0, vat.temperatureC, vat.wheyFraction]);
    const records = recordsOf(vat, inputs, stepMin);
    numbers.push(...constantsOf(inputs), records.length / PLACES.record, ...(truth.at(-1) ?? []), ...records);
  }
  return { bytes: new Uint8Array(Float64Array.from(numbers).buffer), truth };
}

function constantsOf({ acid, basis, clotting, ...inputs }: Inputs): number[] {
  const { culture } = acid;
  const constants = [
    culture.temperatureMinC, culture.temperatureOptC, culture.temperatureMaxC, culture.growthPHMin, culture.growthPHOpt,
    culture.acidPHStop, culture.acidPHOpt, culture.growthRatePerHour, culture.acidRateMmolPerCfuHour, culture.cellsMaxPerL,
    culture.growthFreeFraction, culture.lactatePerLactose, acid.bufferFactor, acid.curdRateFactor,
    acid.drainedDissolvedFraction, acid.serumProtonsAtStart, inputs.wheyEndFraction, inputs.wheyRateFactor,
    inputs.lossFactor, inputs.roomC, inputs.ground.cubeMm, basis.waterInSerumFraction, basis.serumKg, basis.lossKg,
    basis.milk.waterKg, basis.milk.caseinKg, clotting.doseImcuPerL, 0, clotting.heatSlowing, clotting.speciesFactor,
    clotting.makerFactor,
  ]; // prettier-ignore
  return [...constants, ...Array.from({ length: PLACES.constants - constants.length }, () => 0)];
}

/** Values that are carried from step to step, in the order of the tape. */
const carried = (vat: Vat): number[] => [
  vat.temperatureC,
  vat.wheyFraction,
  vat.conditions.curdSerumL,
  vat.conditions.wheyL,
  vat.clotProgress,
  ...vat.acid.subarray(0, ACID_STATE_SIZE),
];

const PHASE = { milk: 0, 'curd-in-whey': 1, drained: 2 } as const;

function recordsOf(vat: Vat, inputs: Inputs, stepMin: number): number[] {
  const records: number[] = [];
  let after: number[] = [];
  runClocked(vat, inputs, stepMin, {
    before: (now, minutes, stirring) => {
      const before = carried(now);
      const changed = before.reduce((mask, value, i) => (value === after[i] ? mask : mask | (1 << i)), 0);
      records.push(
        minutes,
        STIRRING_FACTOR[stirring],
        now.heaterW,
        now.loss.atBodyWPerK,
        now.loss.perK,
        now.loss.perK2,
        now.heatCapacityKJPerK,
        PHASE[now.conditions.phase],
        Number.isNaN(now.cultureMin) ? 0 : 1,
        Number.isNaN(now.cutMin) ? 0 : 1,
        Number.isNaN(now.rennetMin) ? 0 : 1,
        changed,
        ...before,
      );
    },
    after: (now) => (after = carried(now)),
  });
  return records;
}
