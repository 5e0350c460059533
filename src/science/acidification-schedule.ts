/**
 * The timetable of one souring: what is done when, laid out in steps that end exactly at the events.
 * Serum volumes follow a simple schedule here (whole-make forecasts bring their own moisture model).
 */
import type { Problem } from '../numbers/validity.ts';
import type { AcidPhase } from './acidification.ts';
import type { BufferComposition } from './buffer.ts';

export interface TemperaturePoint {
  readonly minute: number;
  readonly temperatureC: number;
}

/** What is done to the milk, in minutes after the culture. */
export interface AcidMake {
  readonly minutes: number;
  /** Straight lines between points, level before the first and after the last. */
  readonly temperatureProfile: readonly TemperaturePoint[];
  readonly cutMinute?: number;
  readonly drainMinute?: number;
  /** Whey drawn (share of the free whey) and water poured (L per L of milk). */
  readonly wash?: { readonly minute: number; readonly drawFraction: number; readonly waterFraction: number };
  readonly saltMinute?: number;
  /** Factor on growth and acid after salting. */
  readonly saltFactor?: number;
  /** Solvent water in the curd at draining [L per L of milk]; default 0.14 x casein/26. */
  readonly drainSerumL?: number;
  /** The same when whey has stopped running; default 0.06 x casein/26. */
  readonly finalSerumL?: number;
}

const DRAIN_SERUM_L = 0.14; // our own, from the published makes the model was fitted to (0.085 to 0.15 for cow's milk)
const FINAL_SERUM_L = 0.06; // our own, as above (0.042 to 0.08)
const REFERENCE_CASEIN_G_PER_L = 26; // the milk of those makes
const DRAINING_TIME_CONSTANT_MIN = 30; // our own, as above
const UNDRAINED_SETTLE_MIN = 120; // our own: curd left in its whey has shrunk to the drain volume by then
/** Step of the loop [min]: 4 min keeps the pH of curd and whey within 0.001 of a fine step (tested to 0.005). */
export const ACID_STEP_MIN = 4;

/** A make cut into steps that end exactly at its events; shared by all members of an ensemble. */
export interface AcidSchedule {
  /** Step boundaries [min], one more than there are steps. */
  readonly minute: Float64Array;
  /** Temperature at start, middle and end of each step: index 2 i + (0, 1, 2). */
  readonly temperatureC: Float64Array;
  readonly curdSerumL: Float64Array;
  readonly phases: readonly AcidPhase[];
  /** Events at the start of a step, by step index. */
  readonly cutStep: number;
  readonly washStep: number;
  readonly drainStep: number;
  readonly saltStep: number;
  readonly make: AcidMake;
}

/** Temperature of a profile at a minute: straight lines, level outside. */
export function profileTemperatureC(at: { profile: readonly TemperaturePoint[]; minute: number }): number {
  let before = at.profile[0] ?? { minute: 0, temperatureC: 20 };
  if (at.minute <= before.minute) return before.temperatureC;
  for (const point of at.profile) {
    if (at.minute <= point.minute && point.minute > before.minute) {
      const share = (at.minute - before.minute) / (point.minute - before.minute);
      return before.temperatureC + share * (point.temperatureC - before.temperatureC);
    }
    before = point;
  }
  return before.temperatureC;
}

/** Solvent water in the curd [L per L of milk] at a minute. */
function curdSerumL(make: AcidMake, casein: number, minute: number): number {
  const cut = make.cutMinute;
  if (cut === undefined || minute <= cut) return 1;
  const scale = Math.min(casein / REFERENCE_CASEIN_G_PER_L, 2);
  const atDrain = make.drainSerumL ?? DRAIN_SERUM_L * scale;
  const atEnd = Math.min(make.finalSerumL ?? FINAL_SERUM_L * scale, atDrain);
  const drain = make.drainMinute ?? cut + UNDRAINED_SETTLE_MIN;
  if (minute <= drain) return Math.exp((Math.log(atDrain) * (minute - cut)) / Math.max(drain - cut, 1e-9));
  if (make.drainMinute === undefined) return atDrain;
  return atEnd + (atDrain - atEnd) * Math.exp(-(minute - drain) / DRAINING_TIME_CONSTANT_MIN);
}

/** Lays a make out in steps of at most `stepMin` that end at every event and every bend of the temperature. */
export function acidSchedule(input: {
  readonly make: AcidMake;
  readonly composition: BufferComposition;
  readonly stepMin?: number;
  /** Further minutes that must be step boundaries (readings). */
  readonly alsoAt?: readonly number[];
}): AcidSchedule {
  const { make, composition } = input;
  const stepMin = input.stepMin ?? ACID_STEP_MIN;
  const events = [make.cutMinute, make.wash?.minute, make.drainMinute, make.saltMinute, ...(input.alsoAt ?? [])];
  const fixed = [0, make.minutes, ...make.temperatureProfile.map((point) => point.minute), ...events]
    .filter((m): m is number => m !== undefined && m >= 0 && m <= make.minutes)
    .sort((a, b) => a - b);
  const minutes: number[] = [0];
  for (const end of fixed) {
    const start = minutes.at(-1) ?? 0;
    if (end - start < 1e-9) continue;
    const count = Math.ceil((end - start) / stepMin - 1e-9);
    for (let i = 1; i <= count; i++) minutes.push(i === count ? end : start + ((end - start) * i) / count);
  }
  const steps = minutes.length - 1;
  const temperatureC = new Float64Array(2 * steps + 1);
  const serum = new Float64Array(steps + 1);
  const phases: AcidPhase[] = [];
  const profile = make.temperatureProfile;
  minutes.forEach((minute, i) => {
    temperatureC[2 * i] = profileTemperatureC({ profile, minute });
    const next = minutes[i + 1];
    if (next !== undefined) temperatureC[2 * i + 1] = profileTemperatureC({ profile, minute: (minute + next) / 2 });
    serum[i] = curdSerumL(make, composition.caseinGPerL, minute);
    const cut = make.cutMinute !== undefined && minute >= make.cutMinute;
    const drained = make.drainMinute !== undefined && minute >= make.drainMinute;
    phases.push(drained ? 'drained' : cut ? 'curd-in-whey' : 'milk');
  });
  const stepOf = (minute: number | undefined): number =>
    minute === undefined ? -1 : minutes.findIndex((m) => m >= minute - 1e-9);
  return {
    minute: Float64Array.from(minutes),
    temperatureC,
    curdSerumL: serum,
    phases,
    cutStep: stepOf(make.cutMinute),
    washStep: stepOf(make.wash?.minute),
    drainStep: stepOf(make.drainMinute),
    saltStep: stepOf(make.saltMinute),
    make,
  };
}

/** Times of a make that contradict each other. */
export function orderProblems(make: AcidMake): Problem[] {
  const problems: Problem[] = [];
  const expect = (holds: boolean, field: string, value: unknown, expected: string, remedy: string) => {
    if (!holds) problems.push({ code: 'contradiction', field, value, expected, remedy });
  };
  const { cutMinute, drainMinute, wash, temperatureProfile: profile } = make;
  expect(profile.length > 0, 'temperatureProfile', profile.length, 'at least one point', 'Give a temperature.');
  profile.forEach((point, i) => {
    const before = profile[i - 1];
    const ascending = before === undefined || point.minute > before.minute;
    expect(ascending, `temperatureProfile[${i}].minute`, point.minute, 'minutes that rise', 'Put the points in order.');
  });
  if (drainMinute !== undefined) {
    const ok = cutMinute !== undefined && drainMinute > cutMinute;
    expect(ok, 'drainMinute', drainMinute, 'a minute after cutMinute', 'Give the cut, and drain after it.');
  }
  if (wash !== undefined) {
    const ok = cutMinute !== undefined && wash.minute > cutMinute && wash.minute < (drainMinute ?? Infinity);
    expect(ok, 'wash.minute', wash.minute, 'a minute between cutting and draining', 'Wash while the curd is in whey.');
  }
  return problems;
}
