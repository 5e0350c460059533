import { describe, expect, it } from 'vitest';
import { classOf, classPlan, settingPot } from '../../tests/classes.ts';
import { planFor } from '../../tests/makes.ts';
import type { StepForecast } from './forecast.ts';
import { learnTogether, type LearnedPot, type Pot } from './shared-pots.ts';
import { simulate } from './simulate.ts';
import type { Beliefs, JointBeliefs } from './uncertain.ts';

/** Span of the cut of a pot that has only got its rennet. */
function cutOf(beliefs: Beliefs | JointBeliefs | null, members = 150): StepForecast['endMin'] {
  const { history } = settingPot('x');
  const forecast = simulate({ plan: classPlan, history, members, ...(beliefs === null ? {} : { beliefs }) });
  const end = forecast.steps.find((step) => step.stepId === 'set')?.endMin;
  if (end === undefined) throw new Error('the milk never sets');
  return end;
}
const width = (spread: { p5: number; p95: number }): number => spread.p95 - spread.p5;
const named = (learned: readonly LearnedPot[], id: string): LearnedPot => {
  const found = learned.find((pot) => pot.id === id);
  if (found === undefined) throw new Error(`no pot ${id}`);
  return found;
};
const usual = cutOf(null);

describe('six pots of one milk, packet and bottle', () => {
  const after = (flecksMin: number): StepForecast['endMin'] =>
    cutOf(named(learnTogether({ pots: [settingPot('Ash', flecksMin), settingPot('Birch')] }), 'Birch').beliefs);

  it('late flecks in the first put off the cut of the others, early ones bring it forward', () => {
    expect(after(18).p50).toBeGreaterThan(usual.p50 + 10);
    expect(after(6).p50).toBeLessThan(usual.p50 - 5);
  });

  it('after the flecks of the first the others are cut in a band two thirds as wide at most, and are really cut there', () => {
    let covered = 0;
    let looked = 0;
    let widths = 0;
    const classes = 20;
    for (let number = 0; number < classes; number++) {
      const [first, ...others] = classOf({ pots: 6, seed: 100 + number });
      const band = after(first?.flecksMin ?? Number.NaN);
      widths += width(band) / classes;
      for (const pot of others) {
        looked++;
        if (pot.cutMin >= band.p5 && pot.cutMin <= band.p95) covered++;
      }
    }
    expect(widths).toBeLessThan(0.67 * width(usual));
    // Pots of one class stand or fall together: a band of 90 % may hold 80 % of 100 such pots.
    expect(covered / looked).toBeGreaterThan(0.8);
  });

  it('every further pot narrows it more', () => {
    const pots = [9.5, 10, 10.5].map((flecks, index) => settingPot(`P${index}`, flecks));
    const by = (count: number): number =>
      width(cutOf(named(learnTogether({ pots: [...pots.slice(0, count), settingPot('Fir')] }), 'Fir').beliefs, 400));
    expect(by(3)).toBeLessThan(by(1));
  });
});

describe('an odd pot', () => {
  // The third got twice the rennet.
  const others: Pot[] = [settingPot('Ash', 11), settingPot('Birch', 11.6), settingPot('Cedar', 10.7)];
  const pots: Pot[] = [...others, settingPot('Damson', 5.4), settingPot('Elder')];
  const learned = learnTogether({ pots });

  it('is named, and no other', () => {
    expect(learned.map((pot) => [pot.id, pot.odd])).toEqual([
      ['Ash', null],
      ['Birch', null],
      ['Cedar', null],
      ['Damson', 'bottle'],
      ['Elder', null],
    ]);
  });

  it('misleads nobody: the pot still to set is foreseen as if the odd one were not there', () => {
    const without = learnTogether({ pots: [...others, settingPot('Elder')] });
    const [with_, alone] = [cutOf(named(learned, 'Elder').beliefs, 400), cutOf(named(without, 'Elder').beliefs, 400)];
    expect(Math.abs(with_.p50 - alone.p50)).toBeLessThan(3);
    expect(Math.abs(width(with_) - width(alone))).toBeLessThan(8);
  });

  it('of two pots cannot be told: they are unlike, and neither learns from the other', () => {
    const two = learnTogether({ pots: [settingPot('Ash', 13), settingPot('Birch', 5), settingPot('Cedar')] });
    expect(two.map((pot) => pot.odd)).toEqual([null, null, null]);
    expect(two.map((pot) => pot.unlike.length > 0)).toEqual([true, true, false]);
    expect(Math.abs(cutOf(named(two, 'Cedar').beliefs).p50 - usual.p50)).toBeLessThan(6);
  });

  it('is not a slip of the pen: flecks after three hours say nothing', () => {
    const slip = learnTogether({ pots: [settingPot('Ash', 180), settingPot('Birch')] });
    expect(named(slip, 'Ash').odd).toBeNull();
    expect(named(slip, 'Birch').beliefs).toBeNull();
  });

  it('is hardly ever found where there is none', () => {
    let odd = 0;
    for (let number = 0; number < 6; number++) {
      const truth = classOf({ pots: 4, seed: 700 + number });
      const found = learnTogether({ pots: truth.map((pot, index) => settingPot(`P${index}`, pot.flecksMin)) });
      odd += found.filter((pot) => pot.odd !== null || pot.unlike.length > 0).length;
    }
    expect(odd).toBeLessThanOrEqual(1);
  });
});

describe('learning together', () => {
  const pots = [settingPot('Ash', 12), settingPot('Birch', 11), settingPot('Cedar')];

  it('is the same in whatever order the pots come, and for the same seed', () => {
    const forwards = learnTogether({ pots, seed: 4 });
    const backwards = learnTogether({ pots: [...pots].reverse(), seed: 4 });
    expect([...backwards].reverse()).toEqual(forwards);
    expect(learnTogether({ pots, seed: 4 })).toEqual(forwards);
  });

  it('gives nearly the same for another seed', () => {
    const [one, other] = [4, 5].map((seed) => cutOf(named(learnTogether({ pots, seed }), 'Cedar').beliefs, 400));
    expect(Math.abs((one?.p50 ?? 0) - (other?.p50 ?? 0))).toBeLessThan(2);
  });

  it('counts nobody’s own notes twice: a pot alone learns nothing from itself', () => {
    expect(learnTogether({ pots: [settingPot('Ash', 12)] })).toEqual([
      { id: 'Ash', beliefs: null, from: [], odd: null, unlike: [] },
    ]);
    expect(named(learnTogether({ pots: [settingPot('Ash', 12), settingPot('Birch')] }), 'Ash').beliefs).toBeNull();
  });

  it('crosses only what is shared: the packet learns nothing from flecks, and strangers nothing at all', () => {
    const only = (sharing: Pot['sharing']): LearnedPot =>
      named(
        learnTogether({ pots: [settingPot('Ash', 18, sharing), settingPot('Birch', undefined, sharing)] }),
        'Birch',
      );
    expect(only({}).beliefs).toBeNull();
    expect(Math.abs(cutOf(only({ packet: 'one' }).beliefs).p50 - usual.p50)).toBeLessThan(5);
    expect(cutOf(only({ bottle: 'one', milk: 'one' }).beliefs).p50).toBeGreaterThan(usual.p50 + 10);
  });

  it('takes a bottle for the same only where both plans say the same of it', () => {
    const labelled = planFor({ answers: { rennet: { strengthImcuPerMl: 200 } } });
    const bottle = { bottle: 'one' };
    const other: Pot = { ...settingPot('Birch'), plan: labelled, sharing: bottle };
    expect(named(learnTogether({ pots: [settingPot('Ash', 18, bottle), other] }), 'Birch').beliefs).toBeNull();
  });
});
