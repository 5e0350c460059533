import { seededRandom, type Random } from '../src/numbers/random.ts';
import type { DayHours, DayInput, DayKit, DayPot } from '../src/forecast/day/day.ts';
import { simulate } from '../src/forecast/simulate.ts';
import { BY_HEAT, potOf, PRESSED, quickPot } from './day-kitchen.ts';
import { planFor } from './makes.ts';

/** Days by chance, from a seed: one to six makes, in kitchens from bare to rich. */

type Kind = Omit<DayPot, 'id'>;
let kinds: readonly Kind[] | null = null;

const MEMBERS = 60; // of a real forecast here: enough for its fifths

/** What is made on such days: three real makes with their forecasts, made once, and two of other kinds. */
export function kindsOfMake(): readonly Kind[] {
  if (kinds !== null) return kinds;
  const real = (['stretched-ball', 'stretched-string'] as const).map((id): Kind => {
    const plan = planFor({ id, milkL: id === 'stretched-ball' ? 12 : 8 });
    return { makeId: id, steps: plan.steps, foreseen: simulate({ plan, seed: 1, members: MEMBERS }) };
  });
  const others = [
    { makeId: 'pressed', lines: PRESSED },
    { makeId: 'by-heat', lines: BY_HEAT },
  ].map(({ makeId, lines }): Kind => {
    const { steps, foreseen } = potOf({ id: makeId, makeId, lines });
    return { makeId, steps, foreseen };
  });
  const { id: _id, ...quick } = quickPot('quick');
  kinds = [...real, quick, ...others];
  return kinds;
}

/** One day by its number. */
export function generatedDay(number: number): DayInput {
  const random = seededRandom(20_261_129 + number);
  const all = kindsOfMake();
  const count = 1 + (number % 6);
  // Half of the days are one make in several pots, as a class or a double batch.
  const isClass = random.uniform() < 0.5;
  const first = any(random, all.length);
  const pots = Array.from({ length: count }, (_, index): DayPot => {
    const kind = all[isClass ? first : any(random, all.length)];
    if (kind === undefined) throw new RangeError('no such kind of make');
    return { ...kind, id: `pot-${index + 1}` };
  });
  return { pots, kit: kitBy(random, count), hours: hoursBy(random, number) };
}

const any = (random: Random, count: number): number => Math.floor(random.uniform() * count);

function kitBy(random: Random, count: number): DayKit {
  return {
    hands: 1 + any(random, Math.min(4, count + 1)),
    burner: 1 + any(random, 4),
    kettle: any(random, 3),
    ...(random.uniform() < 0.5 ? {} : { bowl: 1 + any(random, 5) }),
    ...(random.uniform() < 0.5 ? {} : { press: 1 + any(random, 3) }),
    ...(random.uniform() < 0.7 ? {} : { bath: 1 + any(random, 3), 'brine-tub': 1 + any(random, 2) }),
    ...(random.uniform() < 0.7 ? {} : { more: { hands: 4, fromMin: 540, toMin: 900 } }),
  };
}

function hoursBy(random: Random, number: number): DayHours {
  const fromMin = 420 + 15 * any(random, 12);
  if (number % 3 === 0) return { fromMin, toMin: null };
  if (number % 3 === 1) return { fromMin: null, toMin: 960 + 15 * any(random, 16) };
  return { fromMin, toMin: fromMin + 60 * (3 + any(random, 9)) };
}
