import { describe, expect, it } from 'vitest';
import { makeNamed, planFor, TO_DRAINED_REST, TO_SETTING, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import { adoptedPlan } from '../make/adopt.ts';
import { NO_HISTORY, type History } from '../make/history.ts';
import { planMake } from '../make/planning.ts';
import { InputError } from '../numbers/validity.ts';
import type { Forecast } from './forecast.ts';
import { simulate } from './simulate.ts';
import { baseOf, choiceOf, openFiguresOf, ROOM, whatIf, type Settings } from './what-if.ts';

const answers = { milk: { volumeL: 12 } };
const plan = planFor();
const RUN = { members: 120, seed: 7 };
const setting = underWay({ nowMin: 95, ended: TO_SETTING, running: 'set', readings: [{ quantity: 'flocculationMin', value: 11, sample: 'milk', elapsedMin: 95 }] }); // prettier-ignore
const resting = underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey' });
const drained = underWay({ nowMin: 262, ended: TO_DRAINED_REST, running: 'rest-drained' });

const ask = (history: History, settings: Settings, count?: number) =>
  whatIf(baseOf({ plan, history, ...RUN }), { plan, answers, history, settings, ...(count === undefined ? {} : { count }) }); // prettier-ignore
const end = (forecast: Forecast): number => forecast.steps.at(-1)?.endMin.p50 ?? Number.NaN;
const open = (history: History): string[] =>
  openFiguresOf({ plan, history, forecast: simulate({ plan, history, ...RUN }) }).map(({ id }) => id);

describe('what if', () => {
  it('nothing is set otherwise: the very same bands, before the make and under way, all members or few', () => {
    for (const history of [NO_HISTORY, setting, drained]) {
      const { was, next } = ask(history, {});
      expect(was).toEqual(simulate({ plan, history, ...RUN }));
      expect(next).toEqual(was);
      // Setting a figure to what it is anyway is no change either.
      expect(ask(history, { 'brine-strength': 18 }).next).toEqual(was);
      const { bands, outcome } = ask(history, { 'brine-strength': 18 }, 40).next;
      expect({ bands, outcome }).toEqual({ bands: was.bands, outcome: was.outcome });
    }
  });

  it('a figure set otherwise before the make is a plan so written', () => {
    const settings = { 'rest-warmth': 37, cube: 15, 'culture-dose': 1.3, 'rennet-dose': 50 };
    const { 'culture-dose': packetFraction, ...changes } = settings;
    const written = planMake({ make: makeNamed('stretched-ball'), answers: { ...answers, culture: { packetFraction }, changes } }); // prettier-ignore
    const asked = ask(NO_HISTORY, settings);
    expect(asked.plan).toEqual(written);
    expect(asked.next).toEqual(simulate({ plan: written, ...RUN }));
  });

  it('a figure set otherwise under way is the record’s plan after that choice', () => {
    const settings = { 'rest-warmth': 36 };
    const { plan: taken } = adoptedPlan({ plan, answers, steps: resting.steps, atMin: resting.nowMin, choice: choiceOf(settings) }); // prettier-ignore
    const asked = ask(resting, settings);
    expect(asked.plan).toEqual(taken);
    const { bands, steps, outcome } = simulate({ plan: taken, history: resting, ...RUN });
    expect({ bands: asked.next.bands, steps: asked.next.steps, outcome: asked.next.outcome }).toEqual({ bands, steps, outcome }); // prettier-ignore
  });

  it('moves nothing that the change does not move: a longer bath in brine is saltier and later, and no moister in the vat', () => {
    const { was, next } = ask(drained, { 'brine-minutes': 120 });
    expect(next.outcome.saltPercent.p50).toBeGreaterThan(was.outcome.saltPercent.p50);
    expect(end(next)).toBeGreaterThan(end(was));
    expect(next.bands.pH.p50.slice(0, 50)).toEqual(was.bands.pH.p50.slice(0, 50));
    expect(next.outcome.pHAtStretch).toEqual(was.outcome.pHAtStretch);
  });

  it('a few members already say which way it goes and by about how much', () => {
    const all = ask(resting, { 'rest-warmth': 35 });
    const few = ask(resting, { 'rest-warmth': 35 }, 40);
    const moved = ({ was, next }: { was: Forecast; next: Forecast }): number => next.outcome.cultureToReadyMin.p50 - was.outcome.cultureToReadyMin.p50; // prettier-ignore
    expect(moved(all)).toBeGreaterThan(10);
    expect(Math.abs(moved(few) - moved(all))).toBeLessThan(0.5 * moved(all));
    // Nearer to the new ends than a few members by themselves would come.
    const off = (forecast: Forecast): number => forecast.steps.slice(-9).reduce((sum, { endMin }, i) => sum + Math.abs(endMin.p75 - (all.next.steps.slice(-9)[i]?.endMin.p75 ?? 0)), 0); // prettier-ignore
    expect(off(few.next)).toBeLessThan(off(simulate({ plan: all.plan, history: resting, members: 40, seed: 7 })));
    for (const { endMin } of few.next.steps) expect(endMin.p5).toBeLessThanOrEqual(endMin.p95);
  });

  it('a warmer room keeps the curd warmer, and it is ready sooner', () => {
    const open = planFor({ answers: { pot: { keptWarm: 'open' } } });
    const input = { plan: open, answers: { ...answers, pot: { keptWarm: 'open' as const } }, history: drained };
    const { was, next } = whatIf(baseOf({ plan: open, history: drained, ...RUN }), { ...input, settings: { [ROOM]: 32 } }); // prettier-ignore
    expect(next.outcome.cultureToReadyMin.p50).toBeLessThanOrEqual(was.outcome.cultureToReadyMin.p50);
    expect(next.bands.temperatureC.p50.at(60)).toBeGreaterThanOrEqual(was.bands.temperatureC.p50.at(60) ?? 0);
    expect(next.bands.temperatureC).not.toEqual(was.bands.temperatureC);
  });

  it('asks only of what can still be set: no dose that is in, no cube that is cut', () => {
    const before = open(NO_HISTORY);
    expect(before).toEqual(expect.arrayContaining(['milk', 'culture-dose', 'rennet-dose', 'cube', 'brine-minutes', ROOM])); // prettier-ignore
    const then = open(drained);
    expect(then).toEqual(['rest-warmth', 'brine-minutes', 'brine-strength', 'piece', ROOM]);
  });

  it('takes the bath’s length from the forecast where the salt is to end it, and the room from the last thermometer', () => {
    const history = { ...drained, readings: [{ quantity: 'temperatureC', sample: 'room', value: 24, elapsedMin: 250 }] } as const; // prettier-ignore
    const figures = openFiguresOf({ plan, history, forecast: simulate({ plan, history, ...RUN }) });
    const bath = figures.find(({ id }) => id === 'brine-minutes');
    expect(bath?.isExpected).toBe(true);
    expect(bath?.now).toBeGreaterThanOrEqual(5);
    expect(figures.find(({ id }) => id === ROOM)?.now).toBe(24);
  });

  it('refuses what would be another cheese, and names it', () => {
    expect(() => ask(resting, { 'rest-warmth': 60 })).toThrow(InputError);
    expect(() => ask(resting, { 'no-such-figure': 1 })).toThrow(/no-such-figure/);
  });
});
