import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { bothUnits } from '../../../exchange/text/both-units.ts';
import { amountLines, shoppingLines } from '../../../exchange/text/amounts-text.ts';
import { readyLines } from '../../../exchange/text/clock-text.ts';
import { scheduleOf } from '../../../exchange/schedule.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import { parseMake } from '../../../make/make.ts';
import { amountRows } from './amounts-view.ts';
import { factRows, usualAssumptions } from './assumed-view.ts';
import { cartonOf, rennetOf, withCarton, withRennet } from './cartons.ts';
import { draftOf } from './draft-of.ts';
import { firstDraft, inUnits, withFact, type Draft } from './draft.ts';
import { knowView } from './know-view.ts';
import { lotCodeFor } from './lot-code.ts';
import { narrowest, narrowingQuestions } from './narrowing.ts';
import { openingNotes } from './open-batch.ts';
import { outcomeView } from './outcome-view.ts';
import { planFor } from './plan-for.ts';
import { plannedSteps } from './planned-steps.ts';
import { preparationRows } from './preparations-view.ts';
import { canBeConfirmed, problemSentence } from './problem-text.ts';
import { shoppingView } from './shopping-view.ts';
import { toFiveMinutes, wallInstant } from './wall-clock.ts';

const at = (path: string): string => fileURLToPath(new URL(`../../../../${path}`, import.meta.url));
const read = (path: string): unknown => JSON.parse(readFileSync(at(path), 'utf8'));
const ball = parseMake(read('makes/stretched-ball.json'));
const words = (file: string): object => read(`words/en-GB/${file}.json`) as object;
const say = sayFrom(
  openWords({
    language: 'en-GB',
    catalogues: { 'en-GB': { plan: words('plan'), 'plan-text': words('plan-text'), app: words('app') } },
  }),
);
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'Europe/London' });
const draft = firstDraft({ today: '2026-03-04', makeId: ball.id, units: 'metric' });
const fit = (given: Draft = draft) => planFor({ draft: given, make: ball, units: 'metric' });
const { plan, answers } = fit();
if (plan === null || answers === null) throw new Error('the first draft must plan');
const forecast = simulate({ plan, history: NO_HISTORY, members: 100, seed: 1 });
const zeroAt = Date.UTC(2026, 2, 4, 8, 0);
const EVENING = Date.UTC(2026, 2, 3, 20, 0);
const plain = (text: string): string => text.replace(/[\u202F\u00A0]/g, ' ');

describe('the sentence', () => {
  it('plans at once from four ordinary answers and assumes the rest', () => {
    expect(plan.assumed.map((one) => one.field)).toContain('rennet.strengthImcuPerMl');
  });

  it('refuses no milk, less than no milk and words for milk, at the milk', () => {
    for (const typed of ['0', '-3', '', 'some']) {
      const problems = fit(withFact(draft, 'milk.volumeL', typed)).problems;
      expect(problems.map((problem) => problem.field), typed).toEqual(['milk.volumeL']); // prettier-ignore
      expect(problemSentence({ problem: problems[0]!, draft: withFact(draft, 'milk.volumeL', typed), units: 'metric', say })).toMatch(/^Milk/); // prettier-ignore
    }
  });

  it('doubts milk at 37 °C, which is fridge-cold in Fahrenheit, and believes it when looked at again', () => {
    const warm = withFact(draft, 'milk.temperatureC', '37');
    const [problem] = fit(warm).problems;
    expect(problem !== undefined && canBeConfirmed(problem)).toBe(true);
    expect(fit({ ...warm, confirmed: ['milk.temperatureC'] }).problems).toEqual([]);
    expect(withFact({ ...warm, confirmed: ['milk.temperatureC'] }, 'milk.temperatureC', '38').confirmed).toEqual([]);
  });

  it('reads the milk in gallons where the reader thinks in gallons', () => {
    const american = planFor({ draft: withFact(withFact(withFact(draft, 'milk.volumeL', '2'), 'pot.volumeL', '3'), 'culture.packetTreatsL', '2'), make: ball, units: 'us' }); // prettier-ignore
    expect(american.plan?.setup.milk.volumeL).toBeCloseTo(7.57, 2);
  });

  it('keeps the milk the same milk when the reader changes units, and back', () => {
    const american = inUnits(draft, 'us');
    expect(american.facts['milk.volumeL']).toBe('2.64');
    expect(planFor({ draft: american, make: ball, units: 'us' }).plan?.setup.milk.volumeL).toBeCloseTo(10, 1);
    expect(inUnits(inUnits(withFact(draft, 'milk.volumeL', 'ten'), 'us'), 'metric').facts['milk.volumeL']).toBe('ten');
  });

  it('takes the carton and what is known of the rennet as one choice each, there and back', () => {
    for (const carton of ['whole', 'half', 'raw', 'high-heat', 'uht'] as const) expect(cartonOf(withCarton(draft, carton))).toBe(carton); // prettier-ignore
    for (const rennet of ['some', 'known', 'powder', 'tablet'] as const) expect(rennetOf(withRennet(draft, rennet))).toBe(rennet); // prettier-ignore
    expect(withCarton(withCarton(draft, 'half'), 'whole').facts['milk.fatPercent']).toBeUndefined();
  });

  it('refuses long-life milk with the reason and what to buy instead', () => {
    const uht = withCarton(draft, 'uht');
    const [problem] = fit(uht).problems;
    expect(problem?.field).toBe('milk.treatment');
    expect(problemSentence({ problem: problem!, draft: uht, units: 'metric', say })).toMatch(/long-life \(UHT\) does not fit/); // prettier-ignore
  });
});

describe('what is made ahead', () => {
  const schedule = scheduleOf({ plan, forecast, wish: { mode: 'start-at', at: zeroAt }, now: zeroAt });
  if (schedule === null) throw new Error('the first draft must come to an end');
  const sheet = {
    plan,
    forecast,
    schedule,
    now: EVENING,
    spoonDelayMin: null,
    say,
    both: bothUnits('metric'),
    clock: write.clock,
    day: write.day,
    write,
    wayToAnswer: (field: string) => field,
    width: 110,
  };
  const spoken = (lines: readonly string[]): string => lines.join(' ').replace(/\s+/g, ' ');
  const command = spoken([...readyLines(sheet), ...amountLines(sheet)]);
  const meanwhile = preparationRows({ plan, forecast, zeroAt, now: EVENING, say, write });
  const rows = amountRows({ plan, forecast, say, write });
  const enough = (what: string): string => /^[\d.]+ (?:kg|L|g|mL)/.exec(plain(what))?.[0] ?? what;

  it.each([
    ['Ice', /^Ice/],
    ['Brine', /^Brine/],
    ['Stretching water', /^Stretching water/],
    ['Wash water', /^Water for the wash/],
  ])('%s is one figure in the browser and in the command: enough for 19 makes in 20', (name, what) => {
    const row = rows.find((one) => one.name === name);
    const prepared = meanwhile.find((one) => what.test(one.what));
    const figure = enough(row?.written.text ?? '').replace(/\.0(?= )/, '');
    expect(enough(prepared?.amount ?? '').replace(/\.0(?= )/, '')).toBe(figure);
    expect(command.split(figure).length - 1, `${figure} in: ${command}`).toBeGreaterThanOrEqual(2);
    expect(plain(row?.span ?? '')).toMatch(/^enough 19 times in 20; about [\d.]+ \w+ is used/);
  });

  it('is bought by the same figure, rounded up to what shops sell', () => {
    const ice = Number.parseFloat(rows.find((one) => one.name === 'Ice')?.written.number ?? '');
    const bought = shoppingView({ plan, forecast, say, write }).items.find((item) => item.id === 'ice')?.text ?? '';
    const kg = Number.parseFloat(bought);
    expect(kg).toBeGreaterThanOrEqual(ice);
    expect(kg - ice).toBeLessThan(0.5);
    expect(spoken(shoppingLines(sheet))).toContain(`Ice ${kg} kg`);
  });

  it('is told of in the hot water’s own sentence by the same figure', () => {
    const water = rows.find((one) => one.name === 'Stretching water')?.written.text ?? '';
    const view = knowView({ plan, forecast, zeroAt, say, write });
    expect(view.stretchWater).toContain(water);
    expect(view.hotWater.water).toContain(water);
  });
});

describe('the plan sheet', () => {
  it('gives amounts in the order of the work, grams and millilitres first, hands beneath', () => {
    const rows = amountRows({ plan, forecast, say, write });
    expect(rows.map((row) => row.name).slice(0, 3)).toEqual(['Culture', 'Calcium chloride solution', 'Rennet']);
    expect(rows.find((row) => row.name === 'Rennet')?.kitchen).toMatch(/drops/);
    expect(plain(rows.find((row) => row.name === 'Whey to draw')?.kitchen ?? '')).toMatch(/falls .* cm/);
    expect(rows.filter((row) => row.waitsForCurd).map((row) => row.name)).toContain('Stretching water');
  });

  it('says of a packet nobody has read that its own label decides, beside the amount and on the list', () => {
    const { 'culture.packetTreatsL': _read, ...facts } = draft.facts;
    const plan = fit({ ...draft, facts }).plan!;
    const row = amountRows({ plan, forecast, say, write })[0];
    expect(plain(row?.hint ?? '')).toBe('the packet has not been read: one for 10 L is assumed; its own label decides');
    expect(plain(row?.span ?? '')).toBe('likely between 0.5 and 2.5 packets');
    const list = shoppingView({ plan, forecast, say, write }).items.find((item) => item.id === 'culture')?.text ?? '';
    expect(plain(list)).toContain('enough for 10 L of milk: read what a packet treats');
    expect(amountRows({ plan: fit().plan!, forecast, say, write })[0]?.hint).toBeNull();
  });

  it('says plainly what is as good as certain: nobody counts 20 in 20', () => {
    const ready = (readyWithinPlannedRest: number): string => outcomeView({ forecast: { ...forecast, outcome: { ...forecast.outcome, readyWithinPlannedRest } }, make: ball, say, write }).ready ?? ''; // prettier-ignore
    expect([ready(0.99), ready(0.7), ready(0.01)].map((text) => text.split(' such')[0])).toEqual(['Nearly all', '14 in 20', 'Hardly any']); // prettier-ignore
  });

  it('says on the day itself what to do now that the evening for ice and brine is gone', () => {
    const rows = preparationRows({ plan, forecast, zeroAt, now: zeroAt - 30 * 60_000, say, write });
    expect(rows.slice(0, 2).map((row) => [row.clock, row.late !== null])).toEqual([['now', true], ['now', true]]); // prettier-ignore
    expect(rows.find((row) => row.what.startsWith('Ice'))?.late).toContain('buy the ice');
    expect(rows.find((row) => row.what.startsWith('Brine'))?.late).toContain('half as ice, weighed');
    expect(rows.slice(2).every((row) => row.late === null)).toBe(true);
    const evening = preparationRows({ plan, forecast, zeroAt, now: EVENING, say, write });
    expect(evening.every((row) => row.late === null)).toBe(true);
  });

  it('says what comes of it with the span that nine makes in ten keep', () => {
    const view = outcomeView({ forecast, make: ball, say, write });
    expect(view.rows.map((row) => row.id)).toEqual(['weight', 'pieces', 'moisture', 'pH', 'salt']);
    for (const row of view.rows) expect(plain(row.span)).toMatch(/^9 times in 10 between [\d.]+.* and [\d.]+/);
  });

  it('counts preparations back from the early start of their step, the evening’s work first', () => {
    const rows = preparationRows({ plan, forecast, zeroAt, now: EVENING, say, write });
    expect(rows[0]?.clock).toBe('evening before');
    const timed = rows.filter((row) => row.clock !== 'evening before').map((row) => row.at);
    expect(timed).toEqual(timed.toSorted((a, b) => a - b));
  });

  it('tells where to turn the burner off below its target, how deep to draw, and how heavy the pot is', () => {
    const view = knowView({ plan, forecast, zeroAt, say, write });
    const [, off = 0, target = 0] = (/off at ([\d.]+) °C.* coasts to ([\d.]+) °C/.exec(plain(view.burner[0] ?? '')) ?? []).map(Number); // prettier-ignore
    expect(off).toBeLessThan(target);
    expect(plain(view.whey ?? '')).toMatch(/falls [\d.]+ cm/);
    expect(plain(view.hotWater.pot ?? '')).toMatch(/kg/);
    expect(view.looks.length).toBeGreaterThan(0);
  });

  it('lists what to buy with the words on the carton, and what to leave', () => {
    const view = shoppingView({ plan, forecast, say, write });
    expect(plain(view.items[0]?.text ?? '')).toMatch(/^11 L of cow's milk/);
    expect(view.avoid).toContain('UHT');
  });

  it('draws a whisker only where milk or curd decide, and at the last end', () => {
    const steps = plannedSteps({ plan, forecast, zeroAt });
    const spread = steps.filter((step) => step.endLateAt > step.endEarlyAt).map((step) => step.id);
    expect(spread).toContain('rest-drained');
    expect(spread).toContain(steps.at(-1)?.id);
    expect(spread).not.toContain('settle');
  });

  it('shows every gap in its field already, and a fact once said as said', () => {
    const said = withFact(draft, 'room.temperatureC', '15');
    const rows = factRows({
      usual: usualAssumptions({ plan }),
      assumed: fit(said).plan?.assumed ?? [],
      draft: said,
      units: 'metric',
      narrowest: null,
    });
    expect(rows.find((row) => row.path === 'room.temperatureC')).toMatchObject({ text: '15', isAssumed: false });
    expect(rows.find((row) => row.path === 'pot.keptWarm')).toMatchObject({ text: 'lid', isAssumed: true });
  });
});

describe('the one answer worth giving', () => {
  it('is the gap whose other fillings move the finish most', () => {
    const asked = narrowingQuestions({ make: ball, plan, answers });
    const found = narrowest(new Map(asked.map(({ key, plan: other }) => [key, simulate({ plan: other, history: NO_HISTORY, members: 40, seed: 1 })]))); // prettier-ignore
    expect(asked.length).toBeGreaterThan(8);
    expect(plan.assumed.map((one) => one.field)).toContain(found?.path);
    expect(found?.moveMin).toBeGreaterThanOrEqual(10);
  });
});

describe('a plan that is kept or made', () => {
  it('comes back as it was typed', () => {
    const back = draftOf({ planned: { makeId: ball.id, answers, startAt: zeroAt, doneBy: zeroAt + 8 * 3_600_000 }, units: 'metric' }); // prettier-ignore
    expect(back.facts).toEqual(draft.facts);
    expect(planFor({ draft: back, make: ball, units: 'metric' }).plan?.amounts).toEqual(plan.amounts);
  });

  it('freezes make, answers and the forecast that was shown', () => {
    const [opened, frozen] = openingNotes({ plan, answers, forecast, zeroAt, name: 'Ash', lotCode: '260304-1A' }, 'batch:x'); // prettier-ignore
    expect(opened).toMatchObject({ kind: 'batchOpened', streamId: 'batch:x', body: { name: 'Ash', zeroAt } });
    expect(JSON.parse(JSON.stringify(frozen?.body))).toEqual(frozen?.body);
  });

  it('gets a code that is new that day and whose letter changes with any figure', () => {
    const first = lotCodeFor({ day: '2026-03-04', taken: [] });
    const second = lotCodeFor({ day: '2026-03-04', taken: [first] });
    expect([first.slice(0, 8), second.slice(0, 8)]).toEqual(['260304-1', '260304-2']);
    expect(first.at(-1)).not.toBe(second.at(-1));
    expect(lotCodeFor({ day: '2026-04-03', taken: [] }).at(-1)).not.toBe(first.at(-1));
  });
});

describe('the wall clock', () => {
  it('knows no instant while a time is half typed', () => {
    expect(wallInstant({ day: '2026-03-04', time: '' })).toBeNull();
    expect(wallInstant({ day: '2026-03-04', time: '25:00' })).toBeNull();
  });

  it('rounds to five minutes, early and late', () => {
    const minute = 60_000;
    expect([Math.floor, Math.round, Math.ceil].map((rounding) => toFiveMinutes(13 * minute, rounding) / minute)).toEqual([10, 15, 15]); // prettier-ignore
  });
});
