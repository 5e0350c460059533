import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { historyOf } from '../../../exchange/history.ts';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import { parseMake } from '../../../make/make.ts';
import { planMake } from '../../../make/planning.ts';
import type { Event } from '../../../record/event.ts';
import { foldBatch } from '../../../record/fold.ts';
import { newEvent, type DeviceState } from '../../../record/new-event.ts';
import { endOf, type Entry } from './actions.ts';
import { iceWaterAdvice, MOST_ITEMS, pausesOf } from './get-ready.ts';
import { MISHAPS, mishapsFor } from './mishaps.ts';
import { entriesOf } from './reading-entries.ts';
import { vatView, type VatView } from './vat-view.ts';

const ROOT = new URL('../../../../', import.meta.url);
const read = (path: string): unknown => JSON.parse(readFileSync(new URL(path, ROOT), 'utf8'));
const words = openWords({
  language: 'en-GB',
  catalogues: {
    'en-GB': { vat: read('words/en-GB/vat.json') as object, record: read('words/en-GB/record.json') as object },
  },
});
const say = sayFrom(words);
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
const NINE = Date.UTC(2026, 2, 4, 9, 0);
const telling = { say, write, zeroAt: NINE };
const MINUTE = 60_000;
const MEMBERS = 30;

const makes = readdirSync(new URL('makes/', ROOT)).map((file) => read(`makes/${file}`));
const ball = read('makes/stretched-ball.json');

/** A batch that is walked on as a maker would: each main action noted at its minute. */
class Walk {
  readonly plan;
  readonly #events: Event[] = [];
  #device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  nowMin = 0;

  constructor(input: { readonly pHMeter: boolean }) {
    const answers = { milk: { volumeL: 12 }, instruments: { pHMeter: input.pHMeter } };
    this.plan = planMake({ make: parseMake(ball), answers });
    this.note([
      { kind: 'batchOpened', body: { make: ball as never, answers, name: 'Ash', lotCode: 'ASH-7K3', zeroAt: NINE } },
    ]);
  }

  note(entries: readonly Entry[]): void {
    for (const { kind, body } of entries) {
      const at = NINE + this.nowMin * MINUTE;
      const made = newEvent({ kind, body, streamId: 'batch:ash', happenedAt: at, loggedAt: at, person: '', device: this.#device, randomBytes: new Uint8Array(10).fill(this.#events.length) }); // prettier-ignore
      this.#events.push(made.event);
      this.#device = made.device;
    }
  }

  get record() {
    return foldBatch(this.#events);
  }

  #seen: { readonly of: string; readonly view: VatView } | null = null;
  #planned: Forecast | null = null;

  get view(): VatView {
    const of = `${this.#events.length} ${this.nowMin}`;
    if (this.#seen?.of !== of) this.#seen = { of, view: this.#look() };
    return this.#seen.view;
  }

  #look(): VatView {
    const { record, plan } = this;
    const nowAt = NINE + this.nowMin * MINUTE;
    const history = record.steps.length === 0 ? NO_HISTORY : historyOf({ record, nowAt });
    const forecast = simulate({ plan, history, members: MEMBERS, seed: 1 });
    this.#planned ??= simulate({ plan, history: NO_HISTORY, members: MEMBERS, seed: 1 });
    this.#endMin = forecast.steps.find((step) => step.state === 'running')?.endMin.p50 ?? this.nowMin;
    const last = record.readings.at(-1);
    const before = last === undefined ? null : simulate({ plan, history: historyOf({ record, nowAt: last.at - 1 }), members: MEMBERS, seed: 1 }); // prettier-ignore
    return vatView({ record, plan, forecast, planned: this.#planned, before, nowAt, telling });
  }

  ready(): void {
    const { pause } = this.view;
    for (const item of pause?.items ?? []) this.note([{ kind: 'prepared', body: { item: item.id } }]);
  }

  /** Presses the main action, getting ready first where a pause asks for it. */
  press(afterMin: number): string {
    this.nowMin += afterMin;
    const { main } = this.view;
    if (main === null) throw new Error('nothing to press');
    this.note(main.entries);
    return main.label;
  }

  /** Walks on until a step of this id runs, by the minutes the forecast expects. */
  to(stepId: string): void {
    for (let guard = 0; guard < 80 && this.view.standing.step?.id !== stepId; guard++) {
      if (this.view.pause !== null) this.ready();
      this.press(this.view.standing.stage === 'running' ? this.#expectedMin() : 0);
    }
    if (this.view.standing.stage !== 'running') this.press(0);
  }

  #endMin = 0;

  #expectedMin(): number {
    // Flecks come first and only then the cut: a third of the way to it.
    const flecks = this.view.main?.label === 'Flecks';
    return Math.max(1, (this.#endMin - this.nowMin) / (flecks ? 3 : 1));
  }
}

describe('getting ready', () => {
  it('asks for at most nine things at any pause of any make, and names a figure where it knows one', () => {
    for (const json of makes) {
      const plan = planMake({
        make: parseMake(json),
        answers: { milk: { volumeL: 12 }, instruments: { pHMeter: true } },
      });
      const pauses = pausesOf({
        plan,
        forecast: simulate({ plan, history: NO_HISTORY, members: 40, seed: 1 }),
        telling,
      });
      expect(pauses.map((pause) => pause.id)).toEqual(expect.arrayContaining(['milk', 'rennet', 'stretch']));
      for (const pause of pauses) {
        expect(pause.items.length, `${plan.make.id} ${pause.id}`).toBeLessThanOrEqual(MOST_ITEMS);
        expect(pause.items.every((item) => !item.text.includes(':vat') && !item.text.startsWith('vat:'))).toBe(true);
      }
      const pot = pauses.find((pause) => pause.id === 'stretch')?.items.find((item) => item.id === 'stretch.where');
      expect(pot?.figure).toMatch(/kg$/);
    }
  });

  it('puts each preparation where it is still right when it is needed', () => {
    const plan = planMake({ make: parseMake(ball), answers: { milk: { volumeL: 12 } } });
    const forecast = simulate({ plan, history: NO_HISTORY, members: 40, seed: 1 });
    const holder = (id: string) => pausesOf({ plan, forecast, telling }).find((pause) => pause.items.some((item) => item.id === id))?.id; // prettier-ignore
    expect(holder('cool.ice')).toBe('evening');
    expect(holder('brine.brine')).toBe('evening');
    expect(holder('stretch.stretch-water')).toBe('stretch'); // asked for once more where it must stand ready
    expect(holder('rest-drained.test-water')).toBeUndefined(); // an hour before its time it would be cold again
  });

  it('speaks eight words before hot water is lifted', () => {
    const spoken = say('vat:ready.stretch.words').split('“')[1]?.replaceAll(/[”.]/g, '') ?? '';
    expect(spoken.split(' ')).toHaveLength(8);
  });

  it('takes 1.4 °C in ice water off every later temperature', () => {
    expect(iceWaterAdvice({ readsC: 1.4, telling })?.text).toBe('Ice water reads 1.4 °C. The thermometer is 1.4 too high: take 1.4 off every reading.'); // prettier-ignore
    expect(iceWaterAdvice({ readsC: 0.1, telling })).toBeNull();
    const walk = new Walk({ pHMeter: false });
    walk.note([{ kind: 'prepared', body: { item: 'milk.thermometer', value: 1.4, unit: '°C' } }]);
    const [entry] = entriesOf({ reading: { quantity: 'temperatureC', sample: 'milk', value: 38.4, minutesAgo: 0 }, step: null, record: walk.record }); // prettier-ignore
    expect(entry).toMatchObject({ kind: 'reading', body: { value: 37 } });
  });
});

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
    expect(walk.view.facts.join(' ')).toContain('whatever is left');
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
    expect(walk.view.until).toMatch(/^Until it pulls long and smooth or the curd reads pH 5\.\d\d\.$/);
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

describe('mishaps', () => {
  it('offers at most eight for a step, two at the least with a way on, each with a source and words', () => {
    for (const verb of ['warm', 'set', 'cut', 'wash', 'restToAcid', 'stretch', 'brine'] as const) {
      const { first, others } = mishapsFor(verb);
      expect(first.length).toBeLessThanOrEqual(8);
      expect(first.length + others.length).toBe(MISHAPS.length);
      expect(first.length).toBeGreaterThan(2);
    }
    for (const mishap of MISHAPS) {
      expect(mishap.source.length).toBeGreaterThan(5);
      for (const key of ['name', ...mishap.choices.flatMap((choice) => [choice.id, `${choice.id}Brings`])]) {
        expect(words.exists(`vat:mishap.${mishap.id}.${key}`), `${mishap.id}.${key}`).toBe(true);
      }
    }
  });
});
