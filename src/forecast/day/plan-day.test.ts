import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { potOf, PRESSED, quickPot } from '../../../tests/day-kitchen.ts';
import { generatedDay, kindsOfMake } from '../../../tests/generated-days.ts';
import type { DayInput } from './day.ts';
import { firstDay, planDay } from './plan-day.ts';
import { verifyDay } from './verify-day.ts';

const quick = quickPot('pot');
const sixPots = Array.from({ length: 6 }, (_, index) => quickPot(`pot-${index + 1}`));
const ball = (id: string): DayInput['pots'][number] => {
  const [kind] = kindsOfMake();
  if (kind === undefined) throw new RangeError('no make');
  return { ...kind, id };
};
const [NINE, NOON] = [540, 720];

describe('a day of several makes', () => {
  it('starts one make back from when the maker must be done', () => {
    const plan = planDay({ pots: [ball('ash')], kit: { hands: 1, burner: 2 }, hours: { fromMin: null, toMin: 1080 } });
    expect(plan.endMin).toBeGreaterThan(1080 - 5);
    expect(plan.endMin).toBeLessThanOrEqual(1080);
    expect(plan.isProven).toBe(true);
  });

  it('has water hot before the curd could want it, in the kettle, so that the burners stay free', () => {
    const day: DayInput = { pots: sixPots.slice(0, 2), kit: { hands: 2, burner: 2, kettle: 1 }, hours: { fromMin: NINE, toMin: null } };
    const water = planDay(day).preparations.filter(({ preparationId }) => preparationId === 'stretch-water');
    expect(water.map(({ by }) => by)).toEqual(['kettle', 'kettle']);
  }); // prettier-ignore

  it('lets pots wait for the one press there is', () => {
    const pots = ['ash', 'birch'].map((id) => potOf({ id, makeId: 'pressed', lines: PRESSED }));
    const kit = { hands: 2, burner: 2, press: 1 };
    const plan = planDay({ pots, kit, hours: { fromMin: NINE, toMin: null } });
    const [one, other] = plan.holds.filter(({ resource }) => resource === 'press');
    expect(one !== undefined && other !== undefined && other.fromMin >= one.toMin).toBe(true);
    expect(planDay({ pots, kit: { ...kit, press: 2 }, hours: { fromMin: NINE, toMin: null } }).endMin).toBeLessThan(plan.endMin); // prettier-ignore
  });

  it('says of a make that needs a press in a kitchen without one what it lacks, and plans the others', () => {
    const pots = [potOf({ id: 'ash', makeId: 'pressed', lines: PRESSED }), { ...quick, id: 'birch' }];
    const day: DayInput = { pots, kit: { hands: 2, burner: 2, kettle: 1, press: 0 }, hours: { fromMin: NINE, toMin: null } };
    const plan = planDay(day);
    expect(plan.findings).toEqual([{ code: 'kit-missing', fields: { potId: 'ash', makeId: 'pressed', resource: 'press', has: 0, needs: 1 } }]);
    expect(plan.pots.map(({ potId }) => potId)).toEqual(['birch']);
    expect(verifyDay(day, plan)).toEqual([]);
  }); // prettier-ignore

  it('says that the night for ice is gone when it is', () => {
    const plan = planDay({ pots: [{ ...quick, id: 'ash' }], kit: { hands: 1 }, hours: { fromMin: NINE, toMin: null, nowMin: NINE - 60 } }); // prettier-ignore
    expect(plan.findings.map(({ code }) => code)).toEqual(['night-gone']);
  });
});

describe('a class of three hours', () => {
  const kit = { hands: 2, burner: 2, kettle: 1, more: { hands: 6, fromMin: NINE, toMin: NOON } };
  const nineToNoon: DayInput = { pots: sixPots, kit, hours: { fromMin: NINE, toMin: NOON } };

  it('makes six pots of quick stretched curd on two burners and one kettle: some wait a little under their whey, so that the next milk comes on the fire', () => {
    const plan = planDay(nineToNoon);
    expect(plan.findings).toEqual([]);
    expect(plan.pots).toHaveLength(6);
    expect(plan.endMin).toBeLessThanOrEqual(NOON);
    expect(plan.pots.every(({ lastStepId }) => lastStepId === 'store')).toBe(true);
    const waits = plan.pots.flatMap(({ steps }) => steps.filter(({ waitsMin }) => waitsMin > 0));
    expect(waits.length).toBeGreaterThan(0);
    expect(Math.max(...waits.map(({ waitsMin }) => waitsMin))).toBeLessThanOrEqual(15);
    expect(verifyDay(nineToNoon, plan)).toEqual([]);
  });

  it('says what would do where the hours are too few: one burner more, fewer pots, an earlier start, a later end, and each is true', () => {
    const short: DayInput = { ...nineToNoon, hours: { fromMin: NINE, toMin: NOON - 15 } };
    const { findings, ways } = planDay(short);
    expect(findings).toMatchObject([{ code: 'day-too-long' }]);
    const fieldsOf = (code: string): Readonly<Record<string, string | number>> => ways.find((way) => way.code === code)?.fields ?? {}; // prettier-ignore
    expect(fieldsOf('more-burners')['count']).toBe(3);
    expect(fieldsOf('fewer-pots')['count']).toBe(4);
    const others: readonly DayInput[] = [
      { ...short, kit: { ...kit, burner: 3 } },
      { ...short, pots: sixPots.slice(0, 4) },
      { ...short, hours: { fromMin: NINE, toMin: Number(fieldsOf('end-later')['toMin']) } },
      { ...short, hours: { fromMin: Number(fieldsOf('start-earlier')['fromMin']), toMin: NOON - 15 } },
    ];
    for (const day of others) {
      const plan = planDay(day);
      expect(plan.findings).toEqual([]);
      expect(verifyDay(day, plan)).toEqual([]);
    }
  });

  it('does not fit a cultured stretched curd, and offers the quick one, or curd kept cold from the morning', () => {
    const pots = ['ash', 'birch'].map(ball);
    const { id: _id, ...quickKind } = quick;
    const day: DayInput = { pots, kit, hours: { fromMin: NINE, toMin: NOON + 60 }, others: [quickKind] };
    const plan = planDay(day);
    expect(plan.findings.map(({ code }) => code)).toEqual(['pot-too-long', 'pot-too-long']);
    expect(plan.ways.map(({ code }) => code)).toEqual(['curd-kept-cold', 'quicker-make']);
    const cold = plan.ways[0]?.fields ?? {};
    const kept = { ...day, pots: pots.map((pot) => ({ ...pot, keptCold: { madeFromMin: Number(cold['madeFromMin']), workedFromMin: NINE } })) }; // prettier-ignore
    const again = planDay(kept);
    expect(again.findings).toEqual([]);
    for (const { keptCold } of again.pots) expect(keptCold?.toMin).toBeGreaterThanOrEqual(NINE);
    expect(verifyDay(kept, again)).toEqual([]);
  });
});

describe('a day under way', () => {
  it('keeps a pot that has begun where it is, and begins the next when the first lets it', () => {
    const nowMin = NINE + 30;
    const steps = quick.foreseen.steps.map((step, index) => ({ ...step, state: index < 4 ? ('done' as const) : step.state })); // prettier-ignore
    const pots = [
      { ...quick, id: 'ash', begunAtMin: NINE + 3, foreseen: { ...quick.foreseen, steps } },
      { ...quick, id: 'birch' },
    ];
    const day: DayInput = {
      pots,
      kit: { hands: 1, burner: 1, kettle: 1 },
      hours: { fromMin: NINE, toMin: null, nowMin },
    };
    const plan = planDay(day);
    expect(plan.pots[0]?.startMin).toBe(NINE + 3);
    expect(plan.pots[1]?.startMin).toBeGreaterThanOrEqual(nowMin);
    expect(plan.findings.map(({ code }) => code)).toContain('night-gone');
    expect(verifyDay(day, plan)).toEqual([]);
  });
});

describe('forty days by chance', () => {
  const planned = Array.from({ length: 40 }, (_, number) => {
    const day = generatedDay(number);
    const from = performance.now();
    const plan = planDay(day);
    return { day, plan, ms: performance.now() - from };
  });

  it('have no burner, kettle or pair of hands wanted twice, and everything ready in its time', () => {
    const faults = planned.flatMap(({ day, plan }, number) => verifyDay(day, plan).map((fault) => ({ number, ...fault }))); // prettier-ignore
    expect(faults).toEqual([]);
  });

  it('are known to be the shortest or how far from it they may be, and planned while one waits', () => {
    const gaps = planned.map(({ plan }) => plan.gap).sort((a, b) => a - b);
    const times = planned.map(({ ms }) => ms).sort((a, b) => a - b);
    const at = (values: readonly number[], share: number): number => values[Math.floor(share * (values.length - 1))] ?? Number.NaN; // prettier-ignore
    process.stdout.write(`days: ${planned.filter(({ plan }) => plan.isProven).length} of 40 proven shortest; gap ${percent(at(gaps, 0.5))} in the middle, ${percent(at(gaps, 0.95))} at p95; planning ${Math.round(at(times, 0.5))} ms, p95 ${Math.round(at(times, 0.95))} ms\n`); // prettier-ignore
    expect(planned.filter(({ plan }) => plan.isProven).length).toBeGreaterThanOrEqual(18);
    expect(at(gaps, 0.5)).toBeLessThan(0.05);
    expect(at(gaps, 1)).toBeLessThan(0.8);
  });

  it('never end before the bound says they could', () => {
    for (const { plan } of planned) expect(plan.boundMin).toBeLessThanOrEqual(plan.endMin);
  });

  it('end no later with one burner more, or one kettle', () => {
    fc.assert(
      fc.property(fc.constantFrom(...SMALL), fc.constantFrom('burner' as const, 'kettle' as const), (number, more) => {
        const { day, plan } = planned[number] ?? { day: generatedDay(number), plan: firstDay(generatedDay(number)) };
        const richer = planDay({ ...day, kit: { ...day.kit, [more]: (day.kit[more] ?? 0) + 1 } });
        expect(richer.endMin - richer.startMin).toBeLessThanOrEqual(plan.endMin - plan.startMin);
      }),
      { seed: 20261129, numRuns: 10 },
    );
  });
});

/** Days of one to three makes: each is planned a second time. */
const SMALL = Array.from({ length: 40 }, (_, number) => number).filter((number) => number % 6 < 3);
const percent = (share: number): string => `${(share * 100).toFixed(1)} %`;

describe('the verifier', () => {
  const day: DayInput = { pots: sixPots.slice(0, 2), kit: { hands: 1, burner: 1, kettle: 1 }, hours: { fromMin: NINE, toMin: null } }; // prettier-ignore
  const plan = planDay(day);

  it('finds nothing in a good plan', () => expect(verifyDay(day, plan)).toEqual([]));

  it.each([
    ['a pot moved onto another', { ...plan, holds: plan.holds.map((hold) => (hold.potId === 'pot-2' ? { ...hold, fromMin: hold.fromMin - 30, toMin: hold.toMin - 30 } : hold)) }, 'double-use'],
    ['a second burner that is not there', { ...plan, holds: plan.holds.map((hold) => ({ ...hold, unit: hold.unit + 1 })) }, 'no-such-unit'],
    ['hands that nobody gave', { ...plan, holds: plan.holds.filter(({ resource }) => resource !== 'hands') }, 'not-held'],
    ['water forgotten', { ...plan, preparations: plan.preparations.filter(({ preparationId }) => preparationId !== 'stretch-water') }, 'not-prepared'],
    ['water put on too late', { ...plan, preparations: plan.preparations.map((one) => ({ ...one, startMin: one.startMin + 60, endMin: one.endMin + 60 })) }, 'not-ready'],
    ['water gone cold', { ...plan, preparations: plan.preparations.map((one) => ({ ...one, startMin: one.startMin - 60, endMin: one.endMin - 60 })) }, 'gone-cold'],
    ['a cut that comes before the set', { ...plan, pots: plan.pots.map((pot) => ({ ...pot, steps: pot.steps.map((step) => (step.stepId === 'cut' ? { ...step, startMin: step.startMin - 20 } : step)) })) }, 'out-of-order'],
    ['a gel left standing for an hour', { ...plan, pots: plan.pots.map((pot) => ({ ...pot, steps: pot.steps.map((step, index) => (index > 3 ? { ...step, startMin: step.startMin + 60, endMin: step.endMin + 60 } : step)) })) }, 'waits-too-long'],
    ['a start in the night', { ...plan, pots: plan.pots.map((pot) => ({ ...pot, startMin: pot.startMin - 400 })) }, 'outside-hours'],
    ['a pot left out', { ...plan, pots: plan.pots.slice(1) }, 'not-planned'],
  ])('finds %s', (_, spoilt, code) => expect(verifyDay(day, spoilt).map((fault) => fault.code)).toContain(code)); // prettier-ignore
});
