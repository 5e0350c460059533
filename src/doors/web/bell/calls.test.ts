import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { historyOf } from '../../../exchange/history.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import type { Event } from '../../../record/event.ts';
import { foldBatch } from '../../../record/fold.ts';
import { newEvent, type DeviceState } from '../../../record/new-event.ts';
import { planFor } from '../../../../tests/makes.ts';
import { ball, NINE, telling } from '../../../../tests/walked-make.ts';
import type { Entry } from '../vat/actions.ts';
import { recordLines } from '../record/record-lines.ts';
import { EMPTY_BOOK, heldBook, shownCalls, withClockSet, type Book } from './book.ts';
import { callsOf, HAND, laterTimerId } from './calls.ts';
import { clockJump } from './clock-jump.ts';
import { ring, type Sound } from './ring.ts';
import { unanswered } from './unanswered.ts';

const MINUTE = 60_000;
const answers = { milk: { volumeL: 12 } };
const plan = planFor({ answers });
const planned = simulate({ plan, history: NO_HISTORY, members: 40, seed: 1 });
const at = (minute: number): number => NINE + minute * MINUTE;

/** Events of one batch, each at its minute. */
function eventsOf(notes: readonly (Entry & { readonly minute: number })[], deviceId = 'tablet'): Event[] {
  let device: DeviceState = { deviceId, deviceSeq: 0, clock: undefined };
  return notes.map(({ kind, body, minute }, index) => {
    const made = newEvent({ kind, body, streamId: 'batch:ash', happenedAt: at(minute), loggedAt: at(minute), person: '', device, randomBytes: new Uint8Array(10).fill(index) }); // prettier-ignore
    device = made.device;
    return made.event;
  });
}

const OPENED = { kind: 'batchOpened', body: { make: ball as never, answers, name: 'Ash', lotCode: 'A', zeroAt: NINE }, minute: -5 } as const; // prettier-ignore
const begun = (stepId: string, minute: number) => ({ kind: 'stepStarted', body: { stepId }, minute }) as const;
const ended = (stepId: string, minute: number) => ({ kind: 'stepEnded', body: { stepId }, minute }) as const;
const step = (stepId: string, from: number, to: number) => [begun(stepId, from), ended(stepId, to)];
const cultured = [OPENED, ...step('warm', 0, 30), begun('add-culture', 30), { kind: 'added', body: { ingredient: 'culture', amount: 1, unit: 'packets', fractionOfPlan: 1 }, minute: 33 } as const, ended('add-culture', 34)]; // prettier-ignore
const ripening = [...cultured, begun('ripen', 34)];
const setting = [...ripening, ended('ripen', 80), ...step('add-calcium', 80, 82), begun('add-rennet', 82), { kind: 'added', body: { ingredient: 'rennet', amount: 1, unit: 'mL', fractionOfPlan: 1 }, minute: 84 } as const, ended('add-rennet', 84), begun('set', 84)]; // prettier-ignore

function bellAt(events: readonly Event[], minute: number, book: Book = EMPTY_BOOK, isComplete = true) {
  const record = foldBatch(events);
  const forecast = isComplete ? simulate({ plan, history: historyOf({ record, nowAt: at(minute) }), members: 20, seed: 1 }) : null; // prettier-ignore
  const calls = callsOf({ record, plan, forecast, planned, before: null, telling });
  return { calls, ...look(events, minute, book, calls, isComplete) };
}

function look(
  events: readonly Event[],
  minute: number,
  book: Book,
  calls: ReturnType<typeof callsOf>,
  isComplete = true,
) {
  // prettier-ignore
  const record = foldBatch(events);
  const held = heldBook({ book, calls, record, plan, isComplete, nowAt: at(minute) });
  const shown = shownCalls({ book: held, record, nowAt: at(minute) });
  return { shown, ...ring({ book: held, shown, nowAt: at(minute) }) };
}

const ids = (shown: ReturnType<typeof bellAt>['shown']): string[] => shown.map(({ call }) => call.id);

describe('what the maker is called for', () => {
  it('calls the end of the ripening to the second, by the clock of its start', () => {
    const { calls } = bellAt(eventsOf(ripening), 40);
    expect(calls.find((call) => call.id === 'ripen.end')).toMatchObject({ class: 'due', dueAt: at(34 + 45), isExact: true, seen: 'Let it ripen: 45\u202Fmin are over.' }); // prettier-ignore
  });

  it('is the same on two devices whose notes came in another order, and has no time in its names', () => {
    const events = eventsOf(setting);
    const here = bellAt(events, 90).calls;
    const there = bellAt([...events].reverse(), 90).calls;
    expect(there).toEqual(here);
    expect(here.map((call) => call.id)).toContain('set.flecks');
    for (const { id } of here) expect(id).not.toMatch(/\d{6,}/);
  });

  it('says of milk at 52 °C what is seen, what to do, by when and what it costs; nothing of 38 °C', () => {
    const read = (value: number) => eventsOf([...ripening, { kind: 'reading', body: { quantity: 'temperatureC', value, sample: 'milk' }, minute: 50 }]); // prettier-ignore
    const { sound, calls } = bellAt(read(52), 50);
    const [hot] = calls.filter((call) => call.class === 'act');
    expect(hot?.seen).toBe('Too hot: 52.0\u202F°C');
    expect(hot?.what).toContain('Take it off the heat');
    expect(hot?.by).toMatch(/^Within \d+ min, by (09:5\d|10:00)\.$/);
    expect(hot?.cost).toMatch(/culture die|of its speed/);
    expect(sound?.class).toBe('act');
    expect(bellAt(read(38), 50).calls.filter((call) => call.class === 'act')).toEqual([]);
    const [cold] = bellAt(read(30), 50).calls.filter((call) => call.id.includes('.cold.'));
    expect(cold).toMatchObject({ class: 'due', cost: expect.stringMatching(/\d in 10 of its speed/) as string });
  });

  it('is silent before the culture is in, and once the heat is off or the reading struck', () => {
    const warm = [OPENED, begun('warm', 0), { kind: 'reading', body: { quantity: 'temperatureC', value: 52, sample: 'milk' }, minute: 20 } as const]; // prettier-ignore
    expect(bellAt(eventsOf(warm), 20).calls.filter((call) => call.class === 'act')).toEqual([]);
    const hot = eventsOf([...ripening, { kind: 'reading', body: { quantity: 'temperatureC', value: 52, sample: 'milk' }, minute: 50 }]); // prettier-ignore
    const call = bellAt(hot, 50).calls.find((one) => one.class === 'act');
    const strike = call?.answers.find((one) => one.id === 'false')?.notes ?? [];
    const struck = eventsOf([...ripening, { kind: 'reading', body: { quantity: 'temperatureC', value: 52, sample: 'milk' }, minute: 50 }, ...strike.map((one) => ({ ...one, minute: 51 }))]); // prettier-ignore
    expect(bellAt(struck, 51).calls.filter((one) => one.class === 'act')).toEqual([]);
  });

  it('calls for a cut by the fleck time, then for the overdue cut as an Act', () => {
    const flecked = eventsOf([...setting, { kind: 'reading', body: { quantity: 'flocculationMin', value: 12, sample: 'milk' }, minute: 96 }]); // prettier-ignore
    const { calls } = bellAt(flecked, 97);
    expect(calls.find((call) => call.id === 'set.look.0')).toMatchObject({ dueAt: at(84 + 36), isExact: true });
    const over = calls.find((call) => call.id === 'set.over.0');
    expect(over).toMatchObject({ class: 'act', dueAt: at(84 + 36 + 10), look: 'cleanBreak' });
    expect([over?.by, over?.cost].every((line) => (line ?? '').length > 10)).toBe(true);
  });

  it('puts water on to heat in time, with how much and until when', () => {
    const { calls } = bellAt(eventsOf(setting), 90);
    const wash = calls.find((call) => call.id === 'prepare.stir.wash-water');
    expect(wash?.class).toBe('due');
    expect(wash?.what).toMatch(/^Begin now, for “Stir, slowly” at 1[01]:\d\d\.$/);
    expect(calls.some((call) => call.id === 'prepare.cool.ice')).toBe(false); // the evening before
  });

  it('rings a kitchen timer, and again where it is put off', () => {
    const set = { kind: 'timerSet', body: { timerId: `${HAND}x1`, label: 'Washing up', startedAt: at(40), lastsMs: 10 * MINUTE }, minute: 40 } as const; // prettier-ignore
    const one = bellAt(eventsOf([...ripening, set]), 50);
    expect(ids(one.shown)).toContain(`${HAND}x1`);
    expect(one.calls.filter(({ isAsked }) => isAsked === true).map(({ id }) => id)).toEqual([`${HAND}x1`]);
    const call = one.calls.find((each) => each.id === `${HAND}x1`);
    const later = [
      { kind: 'alarmAnswered', body: { alarmId: `${HAND}x1`, answer: 'later' }, minute: 51 } as const,
      { kind: 'timerSet', body: { timerId: laterTimerId(call ?? { id: '' }), label: '', startedAt: at(51), lastsMs: 5 * MINUTE }, minute: 51 } as const, // prettier-ignore
    ];
    expect(ids(bellAt(eventsOf([...ripening, set, ...later]), 52).shown)).not.toContain(`${HAND}x1`);
    expect(ids(bellAt(eventsOf([...ripening, set, ...later]), 56).shown)).toContain(`later.${HAND}x1.1`);
    expect(laterTimerId({ id: `later.${HAND}x1.1` })).toBe(laterTimerId({ id: `${HAND}x1` }));
  });
});

describe('the book of the bell', () => {
  it('keeps a look through a sleep of twenty minutes, though a new forecast would put it off', () => {
    const events = eventsOf(setting);
    const awake = bellAt(events, 88);
    const lookAt = awake.book.held['set.flecks']?.dueAt ?? Number.NaN;
    const asleep = (lookAt - NINE) / MINUTE + 20;
    const woken = bellAt(events, asleep, awake.book);
    expect(woken.shown.find(({ call }) => call.id === 'set.flecks')).toMatchObject({ dueAt: lookAt, lateMin: 20 });
    expect(woken.sound?.calls.map((call) => call.id)).toContain('set.flecks');
    // Woken and looked at once, it does not ring again; oldest first.
    expect(bellAt(events, asleep + 0.1, woken.book).sound).toBeNull();
    expect(woken.shown.map(({ dueAt }) => dueAt)).toEqual(woken.shown.map(({ dueAt }) => dueAt).sort((a, b) => a - b)); // prettier-ignore
  });

  it('shows missed calls before the forecast is there, and none of a step that has ended', () => {
    const awake = bellAt(eventsOf(setting), 88);
    const lookMin = ((awake.book.held['set.flecks']?.dueAt ?? 0) - NINE) / MINUTE;
    expect(ids(bellAt(eventsOf(setting), lookMin + 6, awake.book, false).shown)).toContain('set.flecks');
    const cut = eventsOf([...setting, ended('set', lookMin + 2), begun('cut', lookMin + 2)]);
    expect(ids(bellAt(cut, lookMin + 6, awake.book, false).shown)).not.toContain('set.flecks');
  });

  it('is answered once for all devices, and not answered any more when the answer is taken back', () => {
    const events = eventsOf(ripening);
    const [answered] = eventsOf([{ kind: 'alarmAnswered', body: { alarmId: 'ripen.end', answer: 'heard' }, minute: 80 }], 'phone'); // prettier-ignore
    if (answered === undefined) throw new Error('no answer');
    const [back] = eventsOf([{ kind: 'retracted', body: { replaces: answered.id }, minute: 81 }], 'third');
    if (back === undefined) throw new Error('no undo');
    expect(ids(bellAt(events, 81).shown)).toContain('ripen.end');
    expect(ids(bellAt([...events, answered], 81).shown)).not.toContain('ripen.end');
    expect(ids(bellAt([...events, answered, back], 82).shown)).toContain('ripen.end');
  });

  it('moves what was timed before the device’s clock was set, and nothing that was timed since', () => {
    const before = bellAt(eventsOf(ripening), 70).book;
    const set = withClockSet(before, 20 * MINUTE);
    expect(bellAt(eventsOf(ripening), 95, set).book.held['ripen.end']?.dueAt).toBe(at(34 + 45 + 20));
    expect(bellAt(eventsOf(ripening), 50, withClockSet(before, -20 * MINUTE)).book.held['ripen.end']?.dueAt).toBe(at(34 + 45 - 20)); // prettier-ignore
    const later = [...ripening, ended('ripen', 96), ...step('add-calcium', 96, 98), begun('add-rennet', 98), ended('add-rennet', 100), ...step('set', 100, 130), ...step('cut', 130, 138), begun('heal', 138)]; // prettier-ignore
    expect(bellAt(eventsOf(later), 140, set).book.held['heal.end']?.dueAt).toBe(at(138 + 7));
    expect(clockJump({ before: { wallMs: 0, steadyMs: 0 }, now: { wallMs: 1_000_000, steadyMs: 1_000 } })).toBe(
      999_000,
    );
    expect(clockJump({ before: { wallMs: 0, steadyMs: 0 }, now: { wallMs: -40_000, steadyMs: 1_000 } })).toBe(-41_000);
    expect(clockJump({ before: { wallMs: 0, steadyMs: 0 }, now: { wallMs: 31_000, steadyMs: 1_001 } })).toBeNull();
  });
});

describe('an Act that nobody answers', () => {
  it('sounds every eight seconds, every four after a minute, louder and spoken from two minutes on', () => {
    const hot = eventsOf([...ripening, { kind: 'reading', body: { quantity: 'temperatureC', value: 52, sample: 'milk' }, minute: 50 }]); // prettier-ignore
    const { calls } = bellAt(hot, 50);
    let book = EMPTY_BOOK;
    const heard: { readonly second: number; readonly sound: Sound }[] = [];
    for (let second = 0; second <= 180; second++) {
      const now = look(hot, 50 + second / 60, book, calls);
      book = now.book;
      if (now.sound !== null) heard.push({ second, sound: now.sound });
    }
    const gaps = heard.map(({ second }, index) => second - (heard[index - 1]?.second ?? second));
    expect(new Set(gaps.slice(1, 8))).toEqual(new Set([8]));
    expect(new Set(gaps.slice(10))).toEqual(new Set([4]));
    expect(heard.filter(({ sound }) => sound.isLoud)[0]?.second).toBeGreaterThanOrEqual(120);
    expect(heard.filter(({ second, sound }) => second > 0 && sound.isSpoken).every(({ second }) => second >= 120)).toBe(
      true,
    );
    expect(heard.filter(({ sound }) => sound.isFirst)).toHaveLength(1);
  });

  it('is noted once as unanswered when its step is over, goes on under a newer reading, and rings again should the step go on', () => {
    const read = (value: number, minute: number) => ({ kind: 'reading', body: { quantity: 'temperatureC', value, sample: 'milk' }, minute }) as const; // prettier-ignore
    const hot = [...ripening, read(52, 50)];
    const rung = bellAt(eventsOf(hot), 50);
    const left = (events: readonly Event[], minute: number) => {
      const { book } = bellAt(events, minute, rung.book);
      return unanswered({ before: rung.book, after: book, record: foldBatch(events) });
    };
    expect(left(eventsOf(hot), 51)).toEqual([]);
    expect(left(eventsOf([...hot, read(51, 52)]), 52)).toEqual([]);
    const over = [...hot, ended('ripen', 60)];
    const [noted, ...more] = left(eventsOf(over), 60);
    expect(more).toEqual([]);
    expect(noted).toMatchObject({ kind: 'alarmAnswered', body: { answer: 'nobody', seen: rung.shown[0]?.call.seen, dueAt: at(50) } }); // prettier-ignore
    if (noted === undefined) throw new Error('nothing noted');
    expect(left(eventsOf([...over, { ...noted, minute: 60 }]), 61)).toEqual([]);
    // Noted by two devices it is told once; not at all where somebody answered on a third.
    const told = (...devices: readonly (readonly [string, string])[]) => {
      const events = devices.flatMap(([device, answer]) => eventsOf([{ kind: 'alarmAnswered', body: { alarmId: rung.shown[0]?.call.id ?? '', answer, seen: 'Too hot: 52.0 °C', dueAt: at(50) }, minute: 60 }], device)); // prettier-ignore
      const unique = events.map((event, index) => ({ ...event, id: `answer-${index}` }));
      return recordLines({ record: foldBatch([...eventsOf(over), ...unique]), plan, telling }).filter(({ kind }) => kind === 'alarmAnswered'); // prettier-ignore
    };
    expect(told(['tablet', 'nobody'], ['phone', 'nobody']).map(({ what }) => what)).toEqual([expect.stringMatching(/Too hot: 52.0.°C: nobody answered/)]); // prettier-ignore
    expect(told(['tablet', 'nobody'], ['phone', 'Off the heat'])).toHaveLength(1);
    expect(ids(bellAt(eventsOf([...hot, { ...noted, minute: 60 }]), 61).shown)).toContain(rung.shown[0]?.call.id);
  });

  it('rings what the maker set at its time, though two calls have just sounded, and no planned call waits for it', () => {
    const record = foldBatch(eventsOf(ripening));
    const [some] = callsOf({ record, plan, forecast: null, planned, before: null, telling });
    if (some === undefined) throw new Error('no call');
    const planned4 = [0, 1, 5, 12].map((minute) => ({ ...some, id: `p${minute}`, cause: `p${minute}`, dueAt: at(minute) })); // prettier-ignore
    const asked = [2, 3, 4].map((minute) => ({ ...some, id: `${HAND}${minute}`, cause: `${HAND}${minute}`, dueAt: at(minute), isAsked: true })); // prettier-ignore
    const rungAt = new Map<string, number>();
    let book = EMPTY_BOOK;
    for (let minute = 0; minute <= 30; minute++) {
      const held = heldBook({
        book,
        calls: [...planned4, ...asked],
        record,
        plan,
        isComplete: true,
        nowAt: at(minute),
      });
      const now = ring({ book: held, shown: shownCalls({ book: held, record, nowAt: at(minute) }), nowAt: at(minute) });
      book = now.book;
      for (const call of now.sound?.calls ?? []) rungAt.set(call.id, minute);
    }
    expect(Object.fromEntries(rungAt)).toEqual({ p0: 0, p1: 1, [`${HAND}2`]: 2, [`${HAND}3`]: 3, [`${HAND}4`]: 4, p5: 10, p12: 12 }); // prettier-ignore
  });

  it('whatever the times of a hundred calls, no more than two due soundings fall in ten minutes and each call sounds once', () => {
    const record = foldBatch(eventsOf(ripening));
    const [some] = callsOf({ record, plan, forecast: null, planned, before: null, telling });
    if (some === undefined) throw new Error('no call');
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 120 }), { minLength: 1, maxLength: 30 }), (minutes) => {
        const calls = minutes.map((minute, index) => ({ ...some, id: `c${index}`, cause: `cause${index % 7}`, dueAt: at(minute) })); // prettier-ignore
        let book = EMPTY_BOOK;
        const sounds: { readonly minute: number; readonly sound: Sound }[] = [];
        for (let minute = 0; minute <= 200; minute++) {
          const held = heldBook({ book, calls, record, plan, isComplete: true, nowAt: at(minute) });
          const shown = shownCalls({ book: held, record, nowAt: at(minute) });
          const now = ring({ book: held, shown, nowAt: at(minute) });
          book = now.book;
          if (now.sound !== null) sounds.push({ minute, sound: now.sound });
        }
        const all = sounds.flatMap(({ sound }) => sound.calls.map((call) => call.id));
        expect([...all].sort()).toEqual(calls.map((call) => call.id).sort());
        for (const { minute } of sounds) expect(sounds.filter((one) => one.minute >= minute && one.minute < minute + 10).length).toBeLessThanOrEqual(2); // prettier-ignore
      }),
      { seed: 20_260_304, numRuns: 60 },
    );
  });
});
