import fc from 'fast-check';

/** What somebody does at one of three devices while they may be out of touch. */
export interface Deed {
  readonly device: number;
  readonly what: 'noted' | 'reading' | 'stepStarted' | 'stepEnded' | 'timerSet' | 'alarmAnswered' | 'corrected' | 'retracted'; // prettier-ignore
  readonly value: number;
  /** Which of the events that the device knows is set right or taken back. */
  readonly names: number;
}

/** What the network, the browser or a hand with a file does between deeds. */
export interface Turn {
  readonly device: number;
  readonly what: 'exchange' | 'lose answers' | 'close browser' | 'file from another' | 'clock set';
  readonly value: number;
}

/** One hour at one make with three devices: their clocks, and what happens in order. */
export interface Hour {
  /** How far each clock is from the true time, milliseconds. */
  readonly offsets: readonly number[];
  readonly happenings: readonly (Deed | Turn)[];
}

/** Tablet, tablet, phone. */
export const DEVICES = 3;
const HOUR_MS = 3_600_000;
/** Six hours either way: a time zone mistaken for the time, a clock set by hand. */
const offset = fc.integer({ min: -6 * HOUR_MS, max: 6 * HOUR_MS });

const deed: fc.Arbitrary<Deed> = fc.record({
  device: fc.nat(DEVICES - 1),
  what: fc.constantFrom('noted', 'reading', 'stepStarted', 'stepEnded', 'timerSet', 'alarmAnswered', 'corrected', 'retracted'), // prettier-ignore
  value: fc.nat(4),
  names: fc.nat(1000),
});
const turn: fc.Arbitrary<Turn> = fc.record({
  device: fc.nat(DEVICES - 1),
  what: fc.constantFrom('exchange', 'exchange', 'lose answers', 'close browser', 'file from another', 'clock set'),
  value: fc.nat(1000),
});

/** Any hour: mostly deeds, some turns between them. */
export const anyHour: fc.Arbitrary<Hour> = fc.record({
  offsets: fc.array(offset, { minLength: DEVICES, maxLength: DEVICES }),
  happenings: fc.array(fc.oneof({ weight: 3, arbitrary: deed }, { weight: 1, arbitrary: turn }), { minLength: 6, maxLength: 30 }), // prettier-ignore
});

/** The deed as a note: its kind and body, or null where there is nothing that it could name. */
export function noteOf(input: {
  readonly deed: Deed;
  readonly knownIds: readonly string[];
  readonly at: number;
}): { readonly kind: string; readonly body: object } | null {
  const { what, value, names } = input.deed;
  const replaces = input.knownIds[names % Math.max(1, input.knownIds.length)];
  const pH = { quantity: 'pH', value: 5 + value / 4, sample: 'curd' };
  switch (what) {
    case 'noted':
      return { kind: what, body: { text: `look ${value}` } };
    case 'reading':
      return { kind: what, body: pH };
    case 'stepStarted':
    case 'stepEnded':
      return { kind: what, body: { stepId: `step-${value % 3}` } };
    case 'timerSet':
      return { kind: what, body: { timerId: `timer-${value % 2}`, label: 'Turn', startedAt: input.at, lastsMs: value * 60_000 } }; // prettier-ignore
    case 'alarmAnswered':
      return { kind: what, body: { alarmId: `timer-${value % 2}`, answer: 'done' } };
    case 'corrected':
      return replaces === undefined ? null : { kind: what, body: { replaces, kind: 'reading', body: pH } };
    case 'retracted':
      return replaces === undefined ? null : { kind: what, body: { replaces } };
  }
}

/** Whether a happening is somebody's deed. */
export function isDeed(happening: Deed | Turn): happening is Deed {
  return 'names' in happening;
}
