import { describe, expect, it } from 'vitest';
import { MAKE_IDS } from '../../../../tests/makes.ts';
import { SimulatedMaker, type Rang } from '../../../../tests/simulated-maker.ts';

const MINUTE = 60_000;
const SEEDS = [1, 2];

/** The most first soundings in any ten minutes. */
const mostInTen = (rang: readonly Rang[]): number =>
  Math.max(0, ...rang.map((one) => rang.filter((two) => two.at >= one.at && two.at < one.at + 10 * MINUTE).length));

describe('the bell over whole makes', () => {
  const makes = MAKE_IDS.flatMap((id) =>
    SEEDS.map((seed) => {
      const maker = new SimulatedMaker({ id, pHMeter: seed % 2 === 0, seed });
      const startAt = maker.nowAt;
      maker.run();
      return { id, seed, maker, minutes: (maker.nowAt - startAt) / MINUTE };
    }),
  );
  const all = makes.flatMap(({ maker }) => maker.rang);

  it('sounds at most once in ten minutes on average, and never more than three times in any ten', () => {
    for (const { id, seed, maker, minutes } of makes) {
      console.log(`${id} ${seed}: ${maker.rang.length} soundings in ${Math.round(minutes)} min, most in ten ${mostInTen(maker.rang)}; calls ${[...maker.came.values()].filter((one) => one === 'act').length}/${[...maker.came.values()].filter((one) => one === 'due').length}/${[...maker.came.values()].filter((one) => one === 'note').length}`); // prettier-ignore
      expect(maker.rang.length, `${id} ${seed}`).toBeGreaterThan(8);
      expect(maker.rang.length / minutes, `${id} ${seed}`).toBeLessThanOrEqual(0.1);
      expect(mostInTen(maker.rang), `${id} ${seed}`).toBeLessThanOrEqual(3);
    }
  });

  it('raises an Act in at most one sounding of twenty, and fewer than one for four makes that go as they should', () => {
    const acts = all.filter(({ sound }) => sound.class === 'act');
    console.log(`${acts.length} Acts in ${makes.length} makes: ${acts.map(({ sound }) => sound.calls[0]?.id).join(' ')}`); // prettier-ignore
    expect(acts.length / all.length).toBeLessThanOrEqual(0.05);
    expect(acts.length).toBeLessThan(makes.length / 4);
  });

  it('never sounds twice in three minutes for one cause', () => {
    for (const { maker } of makes) {
      for (const [index, { at, sound }] of maker.rang.entries()) {
        const causes = new Set(sound.calls.map((call) => call.cause));
        const again = maker.rang.slice(index + 1).filter((two) => two.at - at < 3 * MINUTE && two.sound.class === sound.class && two.sound.calls.some((call) => causes.has(call.cause))); // prettier-ignore
        expect(again).toEqual([]);
      }
    }
  });

  it('wakes a maker who fell asleep while the curd set, with one Act', () => {
    const maker = new SimulatedMaker({ id: 'stretched-ball', pHMeter: false, seed: 5 });
    maker.run({ asleepIn: 'set', until: 'set' });
    expect(maker.rang.filter(({ sound }) => sound.class === 'act').map(({ sound }) => sound.calls[0]?.id)).toEqual(['set.over.0']); // prettier-ignore
  });

  it('calls every wait of the plan to its end', () => {
    for (const { id, seed, maker } of makes) {
      for (const wait of ['ripen.end', 'heal.end', 'stir.end', 'settle.end']) {
        expect([...maker.came.keys()], `${id} ${seed}`).toContain(wait);
      }
      expect([...maker.came.keys()].some((one) => one.startsWith('set.look.') || one === 'set.flecks')).toBe(true);
    }
  });
}, 300_000);
