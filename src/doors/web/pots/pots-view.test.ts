import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { historyOf } from '../../../exchange/history.ts';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import { parseMake } from '../../../make/make.ts';
import { planMake } from '../../../make/planning.ts';
import type { Event } from '../../../record/event.ts';
import { foldBatch } from '../../../record/fold.ts';
import { newEvent, type DeviceState } from '../../../record/new-event.ts';
import type { Note } from '../log/event-log.ts';
import { openingsTogether, potNames } from '../plan/pots-together.ts';
import { joinNotes } from './join-notes.ts';
import { movedTo } from './moved.ts';
import type { PotSeen } from './pot-seen.ts';
import { potsView } from './pots-view.ts';
import { alikePots, gapBetween, notesAt, timeSetRight, timesOf } from './together-entries.ts';

const ROOT = new URL('../../../../', import.meta.url);
const read = (path: string): unknown => JSON.parse(readFileSync(new URL(path, ROOT), 'utf8'));
const catalogue = Object.fromEntries(['pots', 'vat', 'record', 'advice'].map((name) => [name, read(`words/en-GB/${name}.json`) as object])); // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': catalogue } }));
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
const NINE = Date.UTC(2026, 2, 4, 9, 0);
const MINUTE = 60_000;
const at = (minutes: number): number => NINE + minutes * MINUTE;

const ball = read('makes/stretched-ball.json');
const answers = { milk: { volumeL: 12 }, instruments: { pHMeter: false } };
const plan = planMake({ make: parseMake(ball), answers });
const fresh = simulate({ plan, history: NO_HISTORY, members: 30, seed: 1 });

/** The class's own log: notes become events as a device makes them. */
class Klass {
  #device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  readonly events: Event[] = [];

  constructor(input: { readonly count: number; readonly apartMin: number }) {
    const names = potNames({ count: input.count, taken: [], say });
    for (const { zeroAt, name, lotCode, together } of openingsTogether({
      opening: { plan, answers, forecast: fresh, zeroAt: NINE },
      pots: input,
      names,
      id: 'k',
      taken: [],
    })) {
      this.note([{ kind: 'batchOpened', streamId: `batch:${name}`, body: { make: ball, answers, name, lotCode, zeroAt, together } }], NINE - 5 * MINUTE); // prettier-ignore
    }
  }

  note(notes: readonly Note[], now: number): Event[] {
    return notes.map(({ kind, body, streamId, happenedAt = now }) => {
      const made = newEvent({ kind, body, streamId, happenedAt, loggedAt: now, person: '', device: this.#device, randomBytes: new Uint8Array(10).fill(this.events.length % 250) }); // prettier-ignore
      this.#device = made.device;
      this.events.push(made.event);
      return made.event;
    });
  }

  pots(now: number): PotSeen[] {
    const ids = [...new Set(this.events.map(({ streamId }) => streamId))];
    return ids.map((potId) => {
      const record = foldBatch(this.events.filter(({ streamId }) => streamId === potId));
      const forecast = record.steps.length === 0 ? fresh : simulate({ plan, history: historyOf({ record, nowAt: now }), members: 30, seed: 1 }); // prettier-ignore
      return { potId, record, plan, forecast, planned: fresh, failed: null, heardAt: null };
    });
  }

  /** Every pot begun at its planned time. */
  begin(now: number): void {
    for (const pot of this.pots(now)) this.note(notesAt({ pot, what: { kind: 'main', stepId: 'warm', label: '' }, at: pot.record.zeroAt, say, write }), pot.record.zeroAt); // prettier-ignore
  }
}
const look = (klass: Klass, now: number, burners: number | null = null) => potsView({ pots: klass.pots(now), burners, nowAt: now, say, write }); // prettier-ignore

describe('a class opened with one plan', () => {
  it('want no burner for the water that a kettle heats', () => {
    const klass = new Klass({ count: 3, apartMin: 0 });
    const wanted = (kettles: number): number =>
      potsView({ pots: klass.pots(NINE), burners: 2, kettles, nowAt: NINE, say, write }).clashes.filter(({ text }) => /burner/i.test(text)).length; // prettier-ignore
    expect(wanted(1)).toBeGreaterThan(0);
    expect(wanted(1)).toBeLessThan(wanted(0));
  });

  it('has pots named after trees, each begun so many minutes after the one before, tied together', () => {
    const klass = new Klass({ count: 3, apartMin: 15 });
    const records = klass.pots(NINE).map(({ record }) => record);
    expect(records.map(({ name, zeroAt }) => [name, zeroAt])).toEqual([['Ash', at(0)], ['Birch', at(15)], ['Cedar', at(30)]]); // prettier-ignore
    expect(records.map(({ together }) => together)).toEqual([1, 2, 3].map((nth) => ({ id: 'k', of: 3, nth })));
    expect(new Set(records.map(({ lotCode }) => lotCode)).size).toBe(3);
  });

  it('does not take a name that another pot has', () => {
    expect(potNames({ count: 3, taken: ['Ash', 'Cedar'], say })).toEqual(['Birch', 'Elm', 'Hazel']);
    const eight = potNames({ count: 8, taken: [], say });
    expect(potNames({ count: 2, taken: eight, say })).toEqual(['Ash 2', 'Birch 2']);
  });
});

describe('the queue', () => {
  it('names pot, verb and time, earliest first', () => {
    const klass = new Klass({ count: 3, apartMin: 15 });
    const view = look(klass, at(-4));
    expect(view.now).toEqual([]);
    expect(view.nobody).toBe('Nobody needs hands for 4\u202Fmin.');
    expect(view.next[0]?.text).toBe('Ash: warm the milk, 09:00');
    expect(view.next.map(({ pot }) => pot)).toContain('Birch');
  });

  it('is in the order of time at every moment, with one call a pot at most for now', () => {
    const klass = new Klass({ count: 4, apartMin: 10 });
    klass.begin(at(30));
    for (let m = 31; m < 120; m += 7) {
      const { now, next } = look(klass, at(m), 2);
      const times = next.map(({ call }) => call.at);
      expect(times).toEqual(times.toSorted((a, b) => a - b));
      expect(new Set(now.map(({ pot }) => pot)).size).toBe(now.length);
    }
  });

  it('says who wants hands in the same minutes', () => {
    const view = look(new Klass({ count: 2, apartMin: 0 }), at(-4));
    expect(view.next[0]?.others).toBe('at the same time: Birch (warm the milk)');
  });
});

describe('clashes on the screen', () => {
  const three = new Klass({ count: 3, apartMin: 5 });

  it('three pots on two burners: flagged, with a later start as a choice that moves the opening', () => {
    const { clashes } = look(three, at(-4), 2);
    const burners = clashes.find(({ collision }) => collision.kind === 'burners');
    expect(burners?.text).toMatch(/^Burners, \d\d:\d\d to \d\d:\d\d: Ash \(warm the milk\), Birch \(warm the milk\) and Cedar \(warm the milk\)\. Wanted: 3, there: 2\.$/); // prettier-ignore
    const choice = burners?.choices.find(({ label }) => /^Start Cedar \d+\u202Fmin later$/.test(label));
    if (choice === undefined) throw new Error('no later start for Cedar');
    const moved = new Klass({ count: 3, apartMin: 5 });
    moved.note(choice.notes, at(-4));
    expect(moved.pots(at(-4))[2]?.record.zeroAt).toBeGreaterThan(at(10));
    const after = look(moved, at(-4), 2).clashes.filter(({ collision }) => collision.kind === 'burners' && collision.fromAt < at(40)); // prettier-ignore
    expect(after).toEqual([]);
  });

  it('on three burners the same pots do not clash there', () => {
    expect(look(three, at(-4), 3).clashes.filter(({ collision }) => collision.kind === 'burners' && collision.fromAt < at(60))).toEqual([]); // prettier-ignore
  });

  it('of pots under way one goes first, and the other is told to wait', () => {
    const klass = new Klass({ count: 2, apartMin: 0 });
    klass.begin(at(1));
    const clash = look(klass, at(20), null).clashes.find(({ choices }) => choices.length === 2);
    if (clash === undefined) throw new Error('two pots in step clash');
    klass.note(clash.choices[1]?.notes ?? [], at(20));
    const after = look(klass, at(20), null);
    expect(after.clashes.find(({ number }) => number === clash.number)?.decided).toBe('Birch goes first.');
    expect(after.next.find(({ pot }) => pot === 'Ash')?.others).toBe('Birch goes first');
  });
});

describe('one entry for all pots', () => {
  it('notes each at its own time, and one pot’s time can be set right', () => {
    const klass = new Klass({ count: 3, apartMin: 4 });
    const [alike] = alikePots({ pots: klass.pots(at(10)), nowAt: at(10), say, write });
    expect(alike?.what.label).toBe('Start the make');
    const times = timesOf({ count: 3, firstAt: at(1), gapMin: 4 });
    const before = klass.pots(at(10));
    const what = alike?.what ?? { kind: 'main', stepId: 'warm', label: '' };
    const noted = before.map((pot, index) => klass.note(notesAt({ pot, what, at: times[index] ?? 0, say, write }), at(10))); // prettier-ignore
    expect(klass.pots(at(10)).map(({ record }) => record.steps[0]?.startedAt)).toEqual([at(1), at(5), at(9)]);
    const [, birch] = before;
    if (birch === undefined) throw new Error('no Birch');
    klass.note(timeSetRight({ pot: birch, what, at: at(7), noted: { events: noted[1] ?? [] }, say, write }), at(11));
    const after = klass.pots(at(11)).map(({ record }) => record);
    expect(after.map(({ steps }) => steps[0]?.startedAt)).toEqual([at(1), at(7), at(9)]);
    expect(after[1]?.zeroAt).toBe(at(7));
  });

  it('puts the action that most pots stand before first', () => {
    const klass = new Klass({ count: 3, apartMin: 0 });
    const [ash] = klass.pots(at(1));
    if (ash === undefined) throw new Error('no Ash');
    klass.note(notesAt({ pot: ash, what: { kind: 'main', stepId: 'warm', label: '' }, at: at(1), say, write }), at(1));
    const alike = alikePots({ pots: klass.pots(at(2)), nowAt: at(2), say, write });
    expect(alike.map(({ what, pots }) => [what.label, pots.length])).toEqual([['Start the make', 2], ['It is warm', 1]]); // prettier-ignore
  });

  it('begins the pots whose time has come, and leaves those that are planned for later out of it', () => {
    const klass = new Klass({ count: 4, apartMin: 20 });
    const alike = alikePots({ pots: klass.pots(at(10)), nowAt: at(10), say, write });
    expect(alike.map(({ what, pots }) => [what.label, pots.map(({ record }) => record.name).join()])).toEqual([['Start the make', 'Ash,Birch'], ['Start the make', 'Cedar,Elm']]); // prettier-ignore
  });

  it('takes pots to be as far apart as they were when they came to where they stand', () => {
    const klass = new Klass({ count: 3, apartMin: 7 });
    expect(gapBetween(klass.pots(at(-5)))).toBe(7);
    klass.begin(at(20));
    expect(gapBetween(klass.pots(at(20)))).toBe(7);
    expect(gapBetween(new Klass({ count: 2, apartMin: 0 }).pots(at(1)))).toBe(0);
    expect(gapBetween(klass.pots(at(20)).slice(0, 1))).toBeNull();
  });
});

describe('what was noted at the wrong pot', () => {
  it('is taken back here and noted there, at the time it was read', () => {
    const klass = new Klass({ count: 2, apartMin: 0 });
    klass.begin(at(1));
    const body = { quantity: 'temperatureC', value: 31, sample: 'milk' };
    const events = klass.note([{ kind: 'reading', streamId: 'batch:Ash', body, happenedAt: at(20) }], at(21));
    klass.note(movedTo({ events, potId: 'batch:Birch' }), at(22));
    const [ash, birch] = klass.pots(at(22));
    expect(ash?.record.readings).toEqual([]);
    expect(birch?.record.readings).toMatchObject([{ value: 31, at: at(20) }]);
  });

  it('stays where it is when it is more than a reading', () => {
    const klass = new Klass({ count: 2, apartMin: 0 });
    const events = klass.note([{ kind: 'stepStarted', streamId: 'batch:Ash', body: { stepId: 'warm' } }], at(1));
    expect(movedTo({ events, potId: 'batch:Birch' })).toEqual([]);
  });
});

describe('a curd joined to another', () => {
  it('ends the one and says of the other that its forecast is no longer exact', () => {
    const klass = new Klass({ count: 2, apartMin: 0 });
    klass.begin(at(1));
    const [ash, birch] = klass.pots(at(60));
    if (ash === undefined || birch === undefined) throw new Error('no pots');
    klass.note(joinNotes({ from: ash.record, to: birch.record, massKg: 1.1 }), at(60));
    const [gave, took] = look(klass, at(61)).lanes;
    expect(klass.pots(at(61))[0]?.record.finishedAt).toBe(at(60));
    expect(gave?.state.text).toBe('Joined to Birch, 10:00');
    expect(took?.state).toEqual({ form: 'watch', text: 'With the curd of Ash since 10:00: forecast no longer exact' });
  });
});
