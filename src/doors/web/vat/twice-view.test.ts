import { describe, expect, it } from 'vitest';
import { newEvent, type DeviceState } from '../../../record/new-event.ts';
import { foldBatch } from '../../../record/fold.ts';
import type { Event } from '../../../record/event.ts';
import { MINUTE, NINE, telling, Walk } from '../../../../tests/walked-make.ts';
import type { Entry } from './actions.ts';
import { twiceView } from './twice-view.ts';

const walk = new Walk({ pHMeter: false });
walk.to('add-rennet');
const apartAt = walk.nowMin;
const apart = [...walk.events];
const mainAt = (minutes: number): readonly Entry[] => {
  walk.nowMin = apartAt + minutes;
  return walk.view.main?.entries ?? [];
};

function wrote(deviceId: string, minutes: number, entries: readonly Entry[]): Event[] {
  let device: DeviceState = { deviceId, deviceSeq: 0, clock: apart.at(-1)?.clock };
  const at = Math.round(NINE + (apartAt + minutes) * MINUTE);
  return entries.map(({ kind, body }, index) => {
    const made = newEvent({ kind, body, streamId: walk.streamId, happenedAt: at, loggedAt: at, person: '', device, randomBytes: new Uint8Array(10).fill(index + minutes * 10 + deviceId.length) }); // prettier-ignore
    device = made.device;
    return made.event;
  });
}
const tablet = wrote('sink', 2, mainAt(2));
const phone = wrote('phone', 4, mainAt(4));
const asked = (events: readonly Event[]) => twiceView({ record: foldBatch(events), plan: walk.plan, telling });

describe('rennet that two devices noted', () => {
  it('is asked about in the words of the step, with both times, and counts once until it is answered', () => {
    const at = (minutes: number): string => telling.write.clock(Math.round(NINE + (apartAt + minutes) * MINUTE));
    const { done } = walk.plan.steps.find(({ id }) => id === 'add-rennet') ?? { done: '' };
    expect(asked([...apart, ...tablet, ...phone])?.text).toBe(`Two devices noted “${done}”, at ${at(2)} and ${at(4)}. Was it the same? Until you say, it counts once.`); // prettier-ignore
    expect(foldBatch([...apart, ...tablet, ...phone]).added.filter(({ ingredient }) => ingredient === 'rennet')).toHaveLength(1); // prettier-ignore
    expect(asked([...apart, ...tablet])).toBeNull();
  });

  it('asks no more after either answer: the same leaves one note standing, both leaves two', () => {
    for (const [answer, count] of [
      ['same', 1],
      ['both', 2],
    ] as const) {
      const entries = asked([...apart, ...tablet, ...phone])?.[answer].entries ?? [];
      const events = [...apart, ...tablet, ...phone, ...wrote('desk-9', 6, entries)];
      expect(asked(events), answer).toBeNull();
      const record = foldBatch(events);
      expect(
        record.added.filter(({ ingredient }) => ingredient === 'rennet'),
        answer,
      ).toHaveLength(count);
      expect(
        record.steps.filter(({ stepId }) => stepId === 'set'),
        answer,
      ).toHaveLength(1);
      // What was taken back stays to be seen.
      expect(
        record.entries.filter(({ kind }) => kind === 'added'),
        answer,
      ).toHaveLength(4);
    }
  });
});
