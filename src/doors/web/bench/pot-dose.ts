/** The dose for a pot by a bottle's tested strength, and by both ends of the test's span. */
import { readTyped } from '../../../exchange/typed-quantity.ts';
import type { UnitSystem, Writer } from '../../../exchange/written.ts';
import type { Problem } from '../../../numbers/validity.ts';
import { askSum } from './ask-sum.ts';
import type { Strength } from '../lots/bottle-words.ts';
import { saidNumber, type SaidNumber } from '../../../exchange/told/rounding.ts';
import { typedUnit, unitOfField } from '../../../exchange/told/unit-of.ts';
import { numberAt } from '../../../exchange/told/value-at.ts';

export interface PotDose {
  readonly middle: SaidNumber | null;
  readonly low: SaidNumber | null;
  readonly high: SaidNumber | null;
  readonly problem: Problem | null;
}

const NONE: PotDose = { middle: null, low: null, high: null, problem: null };

/** How much of the bottle goes into so much milk; asks the sum `rennet` three times. */
export function potDose(input: {
  readonly potText: string;
  readonly units: UnitSystem;
  readonly strength: Strength;
  readonly write: Writer;
}): PotDose {
  const { potText, units, strength, write } = input;
  if (potText.trim() === '') return NONE;
  const unit = typedUnit({ unit: unitOfField('milkL'), units }) ?? 'L';
  const read = readTyped({ text: potText, field: 'milkL', unit, into: 'L' });
  if ('problem' in read) return { ...NONE, problem: read.problem };
  const at = (strengthIMCUPerML: number): number | Problem | null => {
    const reply = askSum({ name: 'rennet', input: { milkL: read.value, strengthIMCUPerML } });
    if ('answer' in reply) return numberAt(reply.answer.result, 'mL');
    return 'problems' in reply ? (reply.problems[0] ?? null) : null;
  };
  const middle = at(strength.p50);
  if (typeof middle !== 'number') return { ...NONE, problem: middle };
  // A strong bottle needs the least of it.
  const least = at(strength.p95);
  const most = at(strength.p5);
  const ends = typeof least === 'number' && typeof most === 'number' ? { low: least, high: most } : null;
  const { said, low, high } = saidNumber({ value: middle, ends, unit: unitOfField('mL'), write });
  return { middle: said, low, high, problem: null };
}
