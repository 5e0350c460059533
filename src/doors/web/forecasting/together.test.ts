import { describe, expect, it } from 'vitest';
import { planFor, TO_WHEY_REST, underWay } from '../../../../tests/makes.ts';
import type { History } from '../../../make/history.ts';
import { runPart, type Part } from '../../../forecast/parts.ts';
import { membersOf, simulate, told, type SimulateInput } from '../../../forecast/simulate.ts';
import { storeTogether } from './together.ts';

const plan = planFor();
const inWhey = underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey' });
const sour: History = {
  ...inWhey,
  readings: [
    { quantity: 'pH', value: 6.35, sample: 'whey', elapsedMin: 180 },
    { quantity: 'pH', value: 6.1, sample: 'whey', elapsedMin: 199 },
  ],
};

/** Another core, as far as plain data is concerned: what is sent there is a copy. */
function anotherCore(): { run: (part: Part) => Promise<ArrayBuffer>; sent: number[] } {
  const sent: number[] = [];
  return {
    sent,
    run: (part) => {
      sent.push(part.rows.length);
      return Promise.resolve(structuredClone(runPart(structuredClone(part))));
    },
  };
}

describe('a forecast whose members are run in two places', () => {
  const inputs: [string, SimulateInput][] = [
    ['before the make', { plan, members: 200 }],
    ['in its whey, with readings that many members do not explain', { plan, history: sour, members: 200 }],
    ['with too few members to be worth sending', { plan, members: 40 }],
  ];
  it.each(inputs)('is the same to the bit %s', async (_, input) => {
    const core = anotherCore();
    const together = await storeTogether(input, core.run);
    expect(told(together)).toEqual(simulate(input));
    expect(together.ensemble).toEqual(membersOf(input).ensemble);
    expect(core.sent.length > 0).toBe(input.members !== 40);
  });

  it('fails where the other place fails, and says why', async () => {
    const lost = storeTogether({ plan, members: 200 }, () => Promise.reject(new Error('the other core is gone')));
    await expect(lost).rejects.toThrow('the other core is gone');
  });
});
