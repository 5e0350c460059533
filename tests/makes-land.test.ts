/** Every make that comes with Vatside, simulated with typical milk, lands inside its own aims. Chance is seeded. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { landingOf, learnedBeliefs, LEARNED_SHARE, typicalPlan } from '../scripts/makes/landing.ts';
import { forecastChecks } from '../src/exchange/make-checks.ts';
import { membersOf, simulate } from '../src/forecast/simulate.ts';
import { AT, DIMENSIONS } from '../src/forecast/uncertain.ts';
import { parseMake, type Make } from '../src/make/make.ts';

const FOLDER = new URL('../makes/', import.meta.url);
const makes: readonly Make[] = readdirSync(FOLDER)
  .filter((file) => file.endsWith('.json'))
  .map((file) => parseMake(JSON.parse(readFileSync(new URL(file, FOLDER), 'utf8'))));
const DRAWS = 200;

describe('typical milk in an ordinary kitchen without a meter', () => {
  it.each(makes.map((make) => [make.id, make] as const))(
    '%s ends inside its aims, with no stop, and never waits for what does not come',
    (_, make) => {
      const { aims, stops, never } = landingOf({ make, draws: DRAWS });
      expect(aims.length).toBe(make.aims.length);
      const missed = aims
        .filter((each) => !each.isInside || each.learnedShare < LEARNED_SHARE)
        .map((each) => `${each.aim.quantity} at ${each.aim.moment}: ${each.median}, ${each.learnedShare} inside`);
      expect({ missed, stops, never }).toEqual({ missed: [], stops: [], never: [] });
    },
  );

  it.each(makes.map((make) => [make.id, make] as const))(
    '%s says of no step a time that its forecast contradicts',
    (_, make) => {
      const plan = typicalPlan(make);
      const checks = forecastChecks({ plan, forecast: simulate({ plan, members: 60 }) });
      expect(checks.filter(({ code }) => code === 'time-contradicted')).toEqual([]);
    },
  );

  it('sees an aim that is missed, and a kitchen that has not learned', () => {
    const [make] = makes;
    if (make === undefined) throw new Error('no makes');
    const off = { ...make, aims: make.aims.map((aim) => (aim.quantity === 'moisturePercent' ? { ...aim, low: 5, aim: 6, high: 7 } : aim)) }; // prettier-ignore
    const { aims } = landingOf({ make: off, draws: DRAWS });
    const moisture = aims.find(({ aim }) => aim.quantity === 'moisturePercent');
    expect(moisture?.isInside).toBe(false);
    expect(moisture?.learnedShare).toBeLessThan(0.05);
  });
});

describe('five batches of weights', () => {
  it('narrow where the whey ends, and leave the acid and the milk as wide as they were', () => {
    const make = makes.find(({ id }) => id === 'stretched-ball');
    if (make === undefined) throw new Error('no ball');
    const { ensemble } = membersOf({ plan: typicalPlan(make), members: DRAWS, seed: 1 });
    const { covariance } = learnedBeliefs({ rows: ensemble.rows, runs: ensemble.results });
    const sd = (name: keyof typeof AT): number => Math.sqrt(covariance[AT[name] * DIMENSIONS + AT[name]] ?? Number.NaN);
    expect(sd('wheyEnd')).toBeLessThan(0.6);
    expect(sd('wheyEnd')).toBeGreaterThan(0.1);
    expect(sd('acidRate')).toBe(1);
    expect(sd('casein')).toBe(1);
  });
});
