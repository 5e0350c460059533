import fc from 'fast-check';
import type { Event } from '../../src/record/event.ts';
import { foldBatch } from '../../src/record/fold.ts';
import { canonicalText, mergeEvents } from '../../src/record/merge.ts';
import { clockAfter } from '../../src/record/clock.ts';
import { newEvent, type DeviceState } from '../../src/record/new-event.ts';
import { DEVICES, anyHour, isDeed, noteOf, type Hour } from './three-devices.ts';

const START = 1_790_000_000_000;

/** The events of an hour in which nobody hears of anybody but by the turns: a device sees all there is at each of its turns. */
function logOf({ offsets, happenings }: Hour): Event[] {
  const events: Event[] = [];
  const seen = Array.from({ length: DEVICES }, () => 0);
  const devices = Array.from({ length: DEVICES }, (_, nth): DeviceState => ({ deviceId: `device-${nth}`, deviceSeq: 0, clock: undefined })); // prettier-ignore
  for (const [index, happening] of happenings.entries()) {
    const nth = happening.device;
    const state = devices[nth];
    if (state === undefined) continue;
    if (!isDeed(happening)) {
      seen[nth] = events.length;
      const clock = clockAfter({ own: state.clock, seen: events, nowMs: START + index * 120_000 });
      devices[nth] = { ...state, clock };
      continue;
    }
    const at = START + index * 120_000 + (offsets[nth] ?? 0);
    const knownIds = events.filter(({ deviceId }, place) => place < (seen[nth] ?? 0) || deviceId === state.deviceId).map(({ id }) => id); // prettier-ignore
    const note = noteOf({ deed: happening, knownIds, at });
    if (note === null) continue;
    const randomBytes = new Uint8Array(10).fill(index);
    const made = newEvent({ ...note, streamId: 'batch:ash', happenedAt: at, loggedAt: at, person: 'M', device: state, randomBytes }); // prettier-ignore
    devices[nth] = made.device;
    events.push(made.event);
  }
  return events;
}

/** Merges logs that arrive in any order and any number of times, and says where the story came out otherwise. */
export function arrivals(input: { readonly seed: number; readonly runs: number }): {
  readonly tried: number;
  readonly wrong: readonly string[];
} {
  let tried = 0;
  const arrived = anyHour.chain((hour) => {
    const events = logOf(hour);
    const twice = [...events, ...events];
    return fc.record({ events: fc.constant(events), order: fc.shuffledSubarray(twice, { minLength: twice.length }), cut: fc.nat(60) }); // prettier-ignore
  });
  const checked = fc.check(
    fc.property(arrived, ({ events, order, cut }) => {
      tried++;
      const whole = canonicalText(foldBatch(events));
      const merged = mergeEvents(mergeEvents(order.slice(cut), order.slice(0, cut)), order);
      return merged.length === events.length && canonicalText(foldBatch(order)) === whole && canonicalText(foldBatch(merged)) === whole; // prettier-ignore
    }),
    { seed: input.seed, numRuns: input.runs },
  );
  return {
    tried,
    wrong: checked.failed ? [`a log told another story: ${JSON.stringify(checked.counterexample)}`] : [],
  };
}
