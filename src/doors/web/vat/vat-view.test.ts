import { describe, expect, it } from 'vitest';
import { endOf, type Entry } from './actions.ts';
import { MINUTE, NINE, Walk } from '../../../../tests/walked-make.ts';

describe('the vat card', () => {
  it('begins with warming: where to turn the burner off, where it coasts to, and when to expect it', () => {
    const walk = new Walk({ pHMeter: false });
    walk.to('warm');
    walk.nowMin += 2;
    const { view } = walk;
    expect(view.verb).toBe('Warm the milk');
    expect(view.numbers.map((number) => number.label)).toEqual(['Burner off at', 'Warm to']);
    expect(Number(view.numbers[0]?.written.number)).toBeLessThan(37);
    expect(view.until).toBe('Until the thermometer reads 37.0\u202F°C.');
    expect(view.expect).toMatch(/^Expect 09:\d\d, 9 times in 10 between 09:\d\d and \d\d:\d\d\.$/);
    expect(view.strip.place).toMatch(/^1 of \d+$/);
  });

  it('counts from when the make really began, and leaves the planned start in sight', () => {
    const walk = new Walk({ pHMeter: false });
    walk.press(75);
    expect(walk.record.zeroAt).toBe(NINE + 75 * MINUTE);
    expect(walk.record.entries.find((entry) => entry.kind === 'batchOpened')?.was[0]?.body['zeroAt']).toBe(NINE);
  });

  it('takes the first flecks as its main action, then the clean break', () => {
    const walk = new Walk({ pHMeter: false });
    walk.to('set');
    expect(walk.press(12)).toBe('Flecks');
    expect(walk.record.readings.at(-1)).toMatchObject({ quantity: 'flocculationMin', value: 12 });
    expect(walk.view.main?.label).toBe('It breaks clean');
    expect(walk.view.facts.join(' ')).toMatch(/^Cut about \d\d:\d\d by the fleck time/);
    walk.press(24);
    expect(walk.record.judgements.at(-1)).toMatchObject({ judgement: 'cleanBreak', grade: 'clean', how: 'said' });
    expect(walk.view.standing.step?.id).toBe('cut');
    expect(walk.view.last).toMatch(/^It breaks clean, \d\d:\d\d$/);
  });

  it('draws whey by litres and by the depth in this pot, and stops the hot water at a temperature', () => {
    const walk = new Walk({ pHMeter: false });
    walk.to('draw-whey');
    expect(walk.view.numbers.map((number) => number.written.unit)).toEqual(['L', 'cm']);
    walk.to('wash');
    expect(walk.view.numbers.map((number) => number.label)).toEqual(['Water at', 'Stop pouring at']);
    expect(walk.view.facts.join(' ')).toContain('In portions');
  });

  it('watches readiness by counting, keeps the water near, and says what early and late cost', () => {
    const walk = new Walk({ pHMeter: false });
    walk.to('rest-drained');
    walk.nowMin += 5;
    const lines = walk.view.readiness?.lines.join(' ') ?? '';
    expect(lines).toMatch(/First test at \d\d:\d\d/);
    expect(lines).toMatch(/\d+ of 20 say ready by \d\d:\d\d/);
    expect(lines).toMatch(/of water a burner-minute short of 80/);
    expect(lines).toMatch(/Too early it tears.*Too late it runs/);
    expect(walk.view.until).toBe('Until it pulls long and smooth.');
  });

  it('names the pH only to those who have a meter', () => {
    const walk = new Walk({ pHMeter: true });
    walk.to('rest-drained');
    expect(walk.view.until).toMatch(/^Until it pulls long and smooth or the curd reads pH\s5\.\d\d\.$/);
  });

  it('keeps what was put off in sight until it is done', () => {
    const walk = new Walk({ pHMeter: false });
    walk.press(0); // begins with everything still open
    expect(walk.view.deferred.map((item) => item.id)).toContain('milk.hands');
    walk.note([{ kind: 'prepared', body: { item: 'milk.hands' } }]);
    expect(walk.view.deferred.map((item) => item.id)).not.toContain('milk.hands');
  });

  it('notes half the culture as half, and a judgement gone past the awaited grade as no other', () => {
    const walk = new Walk({ pHMeter: false });
    walk.to('add-culture');
    const { standing, pauses } = walk.view;
    walk.note(endOf({ standing, plan: walk.plan, record: walk.record, pauses, fractionOfPlan: 0.5 }));
    expect(walk.record.added.at(-1)).toMatchObject({ ingredient: 'culture', fractionOfPlan: 0.5, unit: 'packets' });
    walk.to('rest-drained');
    walk.nowMin += 30;
    walk.note([{ kind: 'judged', body: { judgement: 'stretch', grade: 'runs' } }]);
    walk.press(1);
    expect(walk.record.judgements.filter((judged) => judged.judgement === 'stretch').map((judged) => judged.grade)).toEqual(['runs']); // prettier-ignore
  });

  it('says that it cannot say while nothing was read', () => {
    const walk = new Walk({ pHMeter: false });
    walk.press(0);
    expect(walk.view.course).toMatchObject({ form: 'too-little', text: 'Not enough readings to say.' });
  });

  it('does not say on course beside a reading that nobody foresaw', () => {
    const walk = new Walk({ pHMeter: false });
    walk.to('warm');
    walk.nowMin += 1;
    const warm = (value: number): Entry => ({ kind: 'reading', body: { quantity: 'temperatureC', value, sample: 'milk' } }); // prettier-ignore
    walk.note([warm(5.3)]);
    expect(walk.view.course.form).toBe('on-course');
    walk.nowMin += 1;
    walk.note([warm(1)]);
    const { course } = walk.view;
    expect(course.form).not.toBe('on-course');
    expect(course.bar?.text).toMatch(/^1\.0.°C at .* Expected/);
  });

  it('asks whether milk at five degrees is warm, and does not ask when it is', () => {
    const walk = new Walk({ pHMeter: false });
    walk.to('warm');
    walk.nowMin += 1;
    expect(walk.view.tooSoon).toMatch(/^That is soon: 19 in 20 such makes come to it after 09:\d\d/);
    walk.nowMin += 60;
    expect(walk.view.tooSoon).toBeNull();
  });

  it('leaves a step that the eye ends somewhat early to the eye', () => {
    const walk = new Walk({ pHMeter: false });
    walk.to('stir');
    walk.nowMin += 15;
    expect(walk.view.tooSoon).toBeNull();
  });

  it('walks a whole make to the end with every word in the catalogue', () => {
    const walk = new Walk({ pHMeter: false });
    const told: string[] = [];
    for (let guard = 0; guard < 90 && walk.view.standing.stage !== 'finishing'; guard++) {
      const { view } = walk;
      told.push(JSON.stringify({ ...view, pauses: [], cautions: [] }));
      if (view.pause !== null) walk.ready();
      walk.press(view.standing.stage === 'running' ? 9 : 0);
    }
    expect(walk.view.standing.stage).toBe('finishing');
    expect(walk.record.steps.filter((step) => step.endedAt !== null)).toHaveLength(walk.plan.steps.length);
    const missing = told.flatMap((text) => [...text.matchAll(/"(?:vat:)?[a-z]+\.[a-zA-Z-]+(?:\.[a-zA-Z-]+)*"/g)].map((match) => match[0])); // prettier-ignore
    expect(
      missing.filter((text) => text.startsWith('"vat:') || /^"(number|until|look|cost|fact|ready|pause)\./.test(text)),
    ).toEqual([]);
    expect(told.join(' ')).not.toMatch(/NaN|undefined|Infinity/);
  });
});
