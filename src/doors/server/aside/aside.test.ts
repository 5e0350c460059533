import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { InputError } from '../../../numbers/validity.ts';
import { bareAnswer } from '../../../exchange/calc/answer.ts';
import { calculators } from '../../../exchange/calc/registry.ts';
import { BusyError } from '../busy.ts';
import { readShelf } from '../make-routes.ts';
import { Aside } from './aside.ts';
import { longWork, workedOut, type AskedSolve } from './worked-out.ts';

const { makes } = readShelf(fileURLToPath(new URL('../../../../makes', import.meta.url)));
const make = makes.find(({ id }) => id === 'stretched-ball');
if (make === undefined) throw new Error('The make of these tests is gone.');
const asked: AskedSolve = {
  make,
  answers: { milk: { volumeL: 12 } },
  question: {
    aims: [{ quantity: 'saltInMoisturePercent', low: 1.9, high: Infinity }],
    free: [{ id: 'brine-minutes', high: 120 }],
  },
};
const aside = new Aside();
const { solve, sum } = longWork(aside.workOut);
afterAll(() => aside.close());

describe('a question beside the server’s own thread', () => {
  it('is answered as on that thread, which goes on with its work meanwhile', async () => {
    let ticks = 0;
    const ticking = setInterval(() => ticks++, 5);
    const answer = await solve(asked);
    clearInterval(ticking);
    expect(ticks).toBeGreaterThan(20);
    expect(JSON.parse(JSON.stringify(answer))).toEqual(
      JSON.parse(JSON.stringify((workedOut({ solve: asked }) as { solved: object }).solved)),
    );
  });

  it('may be a sum of four thousand draws', async () => {
    const ripen = calculators.get('ripen')!;
    const input = { ...(ripen.example as object), members: 4000 };
    expect(await sum({ name: 'ripen', input })).toEqual(bareAnswer({ name: 'ripen', input }));
  });

  it('comes back with its problems where it cannot be asked of the make', async () => {
    const wrong = solve({ ...asked, question: { aims: asked.question.aims, free: [{ id: 'moon' }] } });
    await expect(wrong).rejects.toBeInstanceOf(InputError);
    await expect(wrong).rejects.toThrow('moon');
  });

  it('is told to come again where nine others wait, and all that wait are answered', async () => {
    const few = { ...asked, question: { ...asked.question, free: [{ id: 'moon' }] } };
    const all = await Promise.allSettled(Array.from({ length: 12 }, () => solve(few)));
    const reasons = all.map((one) => (one.status === 'rejected' ? (one.reason as Error).name : 'answered'));
    expect(reasons).toEqual([...Array<string>(9).fill('InputError'), ...Array<string>(3).fill('BusyError')]);
  });

  it('is given up when it takes too long, and the next one is answered', async () => {
    const hurried = new Aside(1);
    await expect(hurried.workOut({ solve: asked })).rejects.toBeInstanceOf(BusyError);
    await expect(hurried.workOut({ solve: asked })).rejects.toThrow('ask for less of it');
    await hurried.close();
  });
});
