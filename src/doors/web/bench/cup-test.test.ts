import { describe, expect, it } from 'vitest';
import { streamLog } from '../../../../tests/lot-log.ts';
import { openWriter } from '../../../exchange/written.ts';
import { askSum } from './ask-sum.ts';
import { bottlesOf } from '../lots/bottles.ts';
import { isOfBottle, withBottle } from './bottle-draft.ts';
import {
  clockText,
  cupInput,
  cupInUnits,
  cupMinutes,
  cupSchema,
  expectedMinutes,
  freshCup,
  phaseOf,
  testedBody,
} from './cup-test.ts';
import { fieldsOfSum } from '../../../exchange/told/field-shapes.ts';
import { measuresView } from './measures-view.ts';
import { potDose } from './pot-dose.ts';
import { exampleDraft } from './sum-draft.ts';

const fields = fieldsOfSum('rennet-test');
const START = Date.UTC(2026, 2, 4, 9);
const DAY = 86_400_000;
const fresh = freshCup({ units: 'metric', bottleName: 'Bottle 3' });
const { json } = cupInput({ cup: fresh, fields });
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'Europe/London' });
const result = (minutes: number): unknown => {
  const reply = askSum({ name: 'rennet-test', input: { ...json, flocculationMinutes: minutes } });
  return 'answer' in reply ? reply.answer.result : null;
};

describe('the cup test', () => {
  it('keeps the moment it began and not a count, so that time goes on while nobody looks', () => {
    const running = { ...fresh, startedAt: START };
    expect(phaseOf(fresh)).toBe('setup');
    expect(phaseOf(running)).toBe('running');
    const asleep = cupSchema.parse(JSON.parse(JSON.stringify(running)));
    expect(cupMinutes({ cup: asleep, now: START + 425_000 })).toBeCloseTo(7.083, 3);
    expect(clockText(cupMinutes({ cup: asleep, now: START + 425_000 }))).toBe('7:05');
  });

  it('stands still once flecks were seen', () => {
    const seen = { ...fresh, startedAt: START, fleckedAt: START + 420_000 };
    expect([phaseOf(seen), cupMinutes({ cup: seen, now: START + DAY })]).toEqual(['seen', 7]);
  });

  it('never runs backwards when the clock of the device is set back', () => {
    expect(cupMinutes({ cup: { ...fresh, startedAt: START }, now: START - 60_000 })).toBe(0);
  });

  it('begins with a cup that an ordinary bottle sets within half an hour', () => {
    const expected = expectedMinutes(json ?? {});
    expect(expected?.low).toBeGreaterThan(2);
    expect(expected?.high).toBeLessThan(30);
    expect(expected?.low).toBeLessThan(expected?.high ?? 0);
  });

  it('finds a stronger bottle when flecks come sooner', () => {
    const strength = (minutes: number): number => testedBody({ json: json ?? {}, minutes, milk: 'whole', milkTreatment: 'pasteurised', result: result(minutes) })?.strengthImcuPerMl.p50 ?? 0; // prettier-ignore
    expect(strength(5)).toBeGreaterThan(strength(10));
  });

  it('keeps what was seen beside what came of it', () => {
    expect(testedBody({ json: json ?? {}, minutes: 7, milk: 'whole pasteurised milk', milkTreatment: 'pasteurised', result: result(7) })).toMatchObject({ flocculationMin: 7, milkMl: 100, drops: 1, temperatureC: 33, milk: 'whole pasteurised milk', makesCurd: 'yes' }); // prettier-ignore
    expect(
      testedBody({
        json: json ?? {},
        minutes: 0.01,
        milk: 'whole',
        milkTreatment: 'pasteurised',
        result: result(0.01),
      }),
    ).toBeNull();
  });

  it('gives a dose for the pot, less of it the stronger the bottle may be', () => {
    const dose = potDose({ potText: '12', units: 'metric', strength: { p5: 100, p50: 200, p95: 400 }, write });
    expect([dose.middle?.number, dose.low?.number, dose.high?.number]).toEqual(['2.7', '1.3', '5.4']);
    expect(potDose({ potText: 'x', units: 'metric', strength: { p5: 100, p50: 200, p95: 400 }, write }).problem?.code).toBe('not-a-number'); // prettier-ignore
  });

  it('is the same test in US units', () => {
    const american = cupInUnits({ cup: fresh, units: 'us' });
    expect(Number(american.texts['temperatureC'])).toBeCloseTo(91.4, 1);
    expect(cupInput({ cup: american, fields }).json?.['temperatureC']).toBeCloseTo(33, 1);
  });
});

describe('bottles on the list', () => {
  const body = testedBody({
    json: json ?? {},
    minutes: 7,
    milk: 'whole',
    milkTreatment: 'pasteurised',
    result: result(7),
  });
  const bottle3 = { lotKind: 'rennet', name: 'Bottle 3', form: 'liquid' };
  const streams = new Map([
    ['lot:1', streamLog('lot:1', [[START, 'lotReceived', bottle3], [START, 'lotTested', body ?? {}]])],
    ['lot:2', streamLog('lot:2', [[START, 'lotReceived', { lotKind: 'culture', name: 'Packet' }]])],
    ['lot:3', streamLog('lot:3', [[START, 'lotReceived', { lotKind: 'rennet', name: 'New one' }]])],
  ]); // prettier-ignore

  it('are the bottles of rennet, the last tested first', () => {
    expect(bottlesOf({ streams, now: START }).map(({ name }) => name)).toEqual(['Bottle 3', 'New one']);
  });

  it('say nothing by a cup of long-life milk: the bottle stays untested, and says why', () => {
    const spoiled = { ...body, milkTreatment: 'uht' };
    const vain = new Map([['lot:1', streamLog('lot:1', [[START, 'lotReceived', bottle3], [START, 'lotTested', spoiled]])]]); // prettier-ignore
    expect(bottlesOf({ streams: vain, now: START })).toMatchObject([{ test: null, isTestedInVain: true }]);
  });

  it('lose strength while they stand', () => {
    const [young] = bottlesOf({ streams, now: START });
    const [old] = bottlesOf({ streams, now: START + 365 * DAY });
    expect(young?.keptFraction).toBe(1);
    expect(old?.keptFraction).toBeLessThan(0.95);
    expect(old?.monthsSince).toBeCloseTo(12, 0);
  });

  it('bring tested strength and months into the rennet sum, and are let go when the strength is typed over', () => {
    const [bottle] = bottlesOf({ streams, now: START + 61 * DAY });
    if (bottle === undefined) throw new Error('no bottle');
    const draft = withBottle({
      draft: exampleDraft({ example: { milkL: 12, strengthIMCUPerML: 200 }, units: 'metric' }),
      bottle,
    });
    expect(draft.texts).toMatchObject({ milkL: '12', monthsStored: '2', form: 'liquid' });
    expect(draft.examples).toEqual(['milkL']);
    expect(isOfBottle({ draft, bottle })).toBe(true);
    expect(isOfBottle({ draft: { ...draft, texts: { ...draft.texts, strengthIMCUPerML: '150' } }, bottle })).toBe(
      false,
    );
  });
});

describe('kitchen measures', () => {
  const say = (key: string): string => {
    const bare = key.slice(key.indexOf(':') + 1);
    // A catalogue that knows the units and no other words.
    return bare.startsWith('measures.') ? `of ${bare}` : bare;
  };

  it('never give a spoon of culture without saying that a scale is surer', () => {
    const view = measuresView({
      given: { value: 1, from: 'g', to: 'us-teaspoon', ingredient: 'freeze-dried-culture' },
      say,
      write,
    });
    expect(view.spoons?.length).toBeGreaterThanOrEqual(2);
    for (const spoon of view.spoons ?? [])
      if (!spoon.words.endsWith('noSpoon')) expect(spoon.mind).toBe('of measures.weighIt');
  });

  it('give kitchens with the same spoons one line, and no spoon two names', () => {
    const { spoons } = measuresView({
      given: { value: 12, from: 'g', to: 'mL', ingredient: 'table-salt' },
      say,
      write,
    });
    const words = spoons?.map((spoon) => spoon.words) ?? [];
    expect(words).toHaveLength(new Set(words).size);
    expect(spoons?.[0]?.region).toContain(', ');
    const units = fieldsOfSum('measure').find(({ path }) => path === 'from');
    const names = units !== undefined && 'options' in units ? (units.options ?? []) : [];
    expect(names).toContain('australian-tablespoon');
    expect(names).not.toContain('australia-tablespoon');
  });

  it('show the same amount in litres, spoons and drops, and leave out what nobody would count', () => {
    const names = measuresView({ given: { value: 2, from: 'us-teaspoon', to: 'mL' }, say, write }).same.map(
      (row) => row.measure,
    );
    expect(names.some((name) => name.includes('drop'))).toBe(true);
    expect(names).not.toContain('of measures.units.L');
    expect(names.some((name) => name.endsWith('units.g'))).toBe(false);
  });

  it('turn a temperature only into temperatures', () => {
    const rows = measuresView({ given: { value: 37, from: 'C', to: 'F' }, say, write }).same;
    expect(rows.map((row) => row.measure)).toEqual(['of measures.units.K']);
  });
});
