import type { BatchRecord } from '../../../record/batch-record.ts';
import type { PlannedStep } from '../../../make/plan.ts';
import type { PadReading } from '../pad/pad-screen.tsx';
import type { Entry } from './actions.ts';

/** The item of get-ready whose value says how far the thermometer is out. */
export const THERMOMETER_ITEM = 'milk.thermometer';
/** Smaller than this a kitchen thermometer cannot be told to be wrong (common practice, no source). */
const WORTH_CORRECTING_C = 0.25;

/** How far the thermometer reads too high in this batch, by its value in ice and water; 0 where it was not tested. */
export function thermometerOutC(record: BatchRecord): number {
  const noted = record.prepared.findLast((item) => item.item === THERMOMETER_ITEM)?.value ?? 0;
  return Math.abs(noted) < WORTH_CORRECTING_C ? 0 : noted;
}

/** What a value from the pad is noted as: a reading, a weighing, or the thermometer's test. */
export function entriesOf(input: {
  readonly reading: PadReading;
  readonly step: PlannedStep | null;
  readonly record: BatchRecord;
  /** What stands on the scale; as the step says where left out. */
  readonly weighs?: 'cheese' | 'piece' | undefined;
}): readonly Entry[] {
  const { reading, step, record } = input;
  const { quantity, value, sample } = reading;
  switch (quantity) {
    case 'massKg':
      return [{ kind: 'weighed', body: { what: input.weighs ?? weighedWhat(step), massKg: value } }];
    case 'iceWaterC':
      return [
        { kind: 'prepared', body: { item: THERMOMETER_ITEM, value, unit: '°C' } },
        { kind: 'reading', body: { quantity, value, sample: 'water' } },
      ];
    case 'temperatureC': {
      const outC = thermometerOutC(record);
      if (outC === 0) return [{ kind: 'reading', body: { quantity, value, sample } }];
      const corrected = Math.round((value - outC) * 100) / 100;
      const sign = outC > 0 ? '-' : '+';
      return [{ kind: 'reading', body: { quantity, value: corrected, sample, instrumentId: `thermometer ${sign}${Math.abs(outC).toFixed(1)}` } }]; // prettier-ignore
    }
    case 'pH':
    case 'titratableAcidityD':
    case 'wheyL':
    case 'saltG':
      return [{ kind: 'reading', body: { quantity, value, sample } }];
    case 'pieceG':
    case 'brineGPerL':
    case 'brinePercent':
      // Pads of other places.
      return [];
  }
}

/** Curd while it drains and rests, pieces while they are shaped, the cheese once all is packed. */
function weighedWhat(step: PlannedStep | null): 'drained-curd' | 'cheese' | 'piece' {
  if (step === null || step.verb === 'pack' || step.verb === 'store') return 'cheese';
  if (step.verb === 'form' || step.verb === 'cool' || step.verb === 'brine') return 'piece';
  return 'drained-curd';
}
