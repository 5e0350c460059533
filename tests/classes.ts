import { courseOf } from '../src/forecast/course.ts';
import { groundOf } from '../src/forecast/inputs.ts';
import { SHARES, type Sharing } from '../src/forecast/shares.ts';
import type { Pot } from '../src/forecast/shared-pots.ts';
import { benchOf } from '../src/forecast/simulate.ts';
import { AT, DIMENSIONS, UNCERTAIN } from '../src/forecast/uncertain.ts';
import type { History } from '../src/make/history.ts';
import { seededRandom } from '../src/numbers/random.ts';
import { planFor, TO_SETTING, underWay } from './makes.ts';

/** Invented classes: pots that share milk, packet, bottle, room and maker as the model says they do. */
export const ALL_SHARED: Sharing = { milk: 'one', packet: 'one', bottle: 'one', room: 'one', maker: 'one' };
/** The rennet of every pot is in at this minute. */
export const RENNET_MIN = 84;
const FLOCCULATION_LN_SD = 0.08; // as `observe.ts` has it

export const classPlan = planFor();
const SET = classPlan.steps.findIndex((step) => step.id === 'set');

/** A pot whose milk is setting, with its flecks noted or not. */
export function settingPot(id: string, flecksMin?: number, sharing: Sharing = ALL_SHARED): Pot {
  return { id, plan: classPlan, sharing, history: setting(flecksMin) };
}

function setting(flecksMin?: number): History {
  const nowMin = RENNET_MIN + (flecksMin ?? 0) + 0.01;
  const readings: History['readings'] =
    flecksMin === undefined
      ? []
      : [{ quantity: 'flocculationMin', value: flecksMin, sample: 'milk', elapsedMin: RENNET_MIN + flecksMin }];
  return underWay({ nowMin, ended: TO_SETTING, running: 'set', readings });
}

const free = benchOf(courseOf({ plan: classPlan, history: setting() }), groundOf(classPlan), undefined);
const asked = benchOf(courseOf({ plan: classPlan, history: setting(110) }), groundOf(classPlan), undefined);

/** What really happens in each pot of one class: when its flecks come (as noted), and when it is to be cut. */
export function classOf(input: { pots: number; seed: number }): { flecksMin: number; cutMin: number }[] {
  const random = seededRandom(input.seed);
  const common = Float64Array.from({ length: DIMENSIONS }, () => random.normal());
  return Array.from({ length: input.pots }, () => {
    const row = new Float64Array(DIMENSIONS);
    for (const name of UNCERTAIN) {
      const share = SHARES[name]?.share ?? 0;
      row[AT[name]] = Math.sqrt(share) * (common[AT[name]] ?? 0) + Math.sqrt(1 - share) * random.normal();
    }
    const expected = asked.run(row).expected[0] ?? Number.NaN;
    const flecksMin = expected * Math.exp(FLOCCULATION_LN_SD * random.normal());
    return { flecksMin, cutMin: free.run(row).endMin[SET] ?? Number.NaN };
  });
}
