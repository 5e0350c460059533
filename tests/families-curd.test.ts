/** What the simulator makes of curd that never sours, of salt, of brine that goes with the cheese, and of warm forms. */
import { describe, expect, it } from 'vitest';
import { typicalPlan } from '../scripts/makes/landing.ts';
import { FIGURE_AT, TRACED, TRACE_POINTS } from '../src/forecast/run.ts';
import { membersOf, simulate } from '../src/forecast/simulate.ts';
import { saltSlowsKernel } from '../src/science/dry-salting.ts';
import { makeOf, ran } from './ran.ts';

/** Width of the band that nine makes in ten are in, for the pH at the end of the last step of a verb. */
function bandOfPH(id: string, stepId: string): number {
  const forecast = simulate({ plan: typicalPlan(makeOf(id)), members: 100, seed: 3 });
  const spread = forecast.steps.find((step) => step.stepId === stepId)?.endPH;
  if (spread === null || spread === undefined) throw new Error(`no pH at ${stepId}`);
  return spread.p95 - spread.p5;
}

describe('how sure the pH of a curd is', () => {
  it('is as sure after draining as in the whey where no culture sours it', () => {
    expect(bandOfPH('grilling-cheese', 'drain')).toBeLessThan(1.3 * bandOfPH('grilling-cheese', 'stir'));
    expect(bandOfPH('quick-stretched', 'drain')).toBeLessThan(1.3 * bandOfPH('quick-stretched', 'stir'));
  });

  it('is a good deal less sure once a culture has soured the drained curd', () => {
    expect(bandOfPH('washed-curd-young', 'overnight')).toBeGreaterThan(1.5 * bandOfPH('washed-curd-young', 'drain'));
  });

  it.each(['grilling-cheese', 'quick-stretched', 'fresh-pressed-white'])('%s: whey without a culture keeps a pH that whey can have', (id) => {
    const { run } = ran(makeOf(id));
    const from = TRACED.indexOf('wheyPH') * TRACE_POINTS;
    const whey = [...run.trace.subarray(from, from + TRACE_POINTS)].filter((pH) => !Number.isNaN(pH));
    expect(whey.length).toBeGreaterThan(5);
    expect(Math.min(...whey)).toBeGreaterThan(5);
    expect(Math.max(...whey)).toBeLessThan(7);
  });
}); // prettier-ignore

describe('a cheese kept in liquid', () => {
  const white = makeOf('brined-white');

  it('ripens two weeks in the cool and then as long in the cold as the make says', () => {
    const { run } = ran(white);
    const steps = typicalPlan(white).steps.map(({ id }) => id);
    const days = (id: string): number => {
      const index = steps.indexOf(id);
      return ((run.endMin[index] ?? Number.NaN) - (run.startMin[index] ?? Number.NaN)) / 1440;
    };
    expect(days('brine-warm')).toBeCloseTo(14, 6);
    expect(days('brine-cold')).toBeCloseTo(46, 6);
  });

  it('takes salt until cheese and brine agree, and then holds less of it than the brine did', () => {
    const saltInWater = ran(white).figure('saltInMoisturePercent');
    expect(saltInWater).toBeGreaterThan(4.2);
    expect(saltInWater).toBeLessThan((100 * 7) / 93);
  });

  it('goes into its brine as moist as the curd is, not as the finished cheese', () => {
    const ball = ran(makeOf('stretched-ball'));
    expect(ball.figure('enteringMoisturePercent')).toBeGreaterThan(ball.figure('moisturePercent') + 0.2);
  });
});

describe('salt on milled curd', () => {
  it('is not felt by the culture below a gram in 100 g of water, and the more of it the more', () => {
    expect(saltSlowsKernel(1, 0.25)).toBe(1);
    expect(saltSlowsKernel(3.5, 0.25)).toBeCloseTo(0.25, 10);
    expect(saltSlowsKernel(5, 0.25)).toBeLessThan(0.25);
    expect(saltSlowsKernel(3.5, 0.1)).toBeLessThan(saltSlowsKernel(3.5, 0.25));
  });

  it('slows a curd more the more of it goes on, and already while it is being salted', () => {
    const cheddar = makeOf('cheddared');
    const at = (saltPercent: number, of: 'drySalt' | 'press'): number =>
      ran(cheddar, { verb: 'drySalt', set: { saltPercent } }).at(of, 'endPH');
    expect(at(1.5, 'press')).toBeLessThan(at(2.5, 'press') - 0.02);
    expect(at(2.5, 'press')).toBeLessThan(at(4, 'press') - 0.02);
    expect(at(4, 'drySalt')).toBeGreaterThan(at(0, 'drySalt'));
  });
});

describe('warmth', () => {
  it('is still in the fresh whey of the day, and milk comes from the fridge', () => {
    expect(typicalPlan(makeOf('whey-curd')).setup.milk.temperatureC).toBe(32);
    expect(typicalPlan(makeOf('stretched-ball')).setup.milk.temperatureC).toBe(5);
  });

  it('stays in a curd that is pressed in a warm place, so that it sours further by the end', () => {
    const alpine = makeOf('alpine-cooked');
    const pressedAt = (atC: number): { pH: number; warmC: number } => {
      const { run, at } = ran(alpine, { verb: 'press', set: { atC } });
      const [first] = typicalPlan(alpine).steps.flatMap(({ id }, index) => (id === 'press-light' ? [index] : []));
      return { pH: at('press', 'endPH'), warmC: run.endTemperatureC[first ?? -1] ?? Number.NaN };
    };
    expect(pressedAt(40).warmC).toBeGreaterThan(pressedAt(20).warmC + 3);
    expect(pressedAt(40).pH).toBeLessThan(pressedAt(15).pH);
  });
});

describe('a warming that took long', () => {
  it('boils no milk away, whatever the burner would have done by then', () => {
    const plan = typicalPlan(makeOf('stretched-ball'));
    const [warm, next] = plan.steps;
    if (warm === undefined || next === undefined) throw new Error('no warming');
    const history = { steps: [{ stepId: warm.id, startedMin: 0, endedMin: 90 }], readings: [], judgements: [], additions: [], nowMin: 90 };
    const slow = membersOf({ plan, history, members: 40, seed: 5 });
    const usual = membersOf({ plan, members: 40, seed: 5 });
    const wheyL = ({ ensemble }: typeof slow): number =>
      ensemble.results.reduce((sum, run) => sum + (run.figures[FIGURE_AT.wheyL] ?? Number.NaN), 0) / ensemble.results.length;
    expect(wheyL(slow)).toBeGreaterThan(0.99 * wheyL(usual));
  });
}); // prettier-ignore
