import { newEvent, type DeviceState } from '../../src/record/new-event.ts';
import type { Event } from '../../src/record/event.ts';
import { sendEvents } from '../../tests/browser/tasks/seeded.ts';
import type { TestServer } from '../../tests/browser/server.ts';
import type { Beginning } from './sitting.ts';
import { potAt, stoodAt } from './walked.ts';

const TWO_MINUTES_MS = 120_000;

/** What a second device, out of reach of the first, noted of the same rennet two minutes later. */
function notedAgain(events: readonly Event[]): Event[] {
  const ended = events.find(({ kind, body }) => kind === 'stepEnded' && body['stepId'] === 'add-rennet');
  if (ended === undefined) throw new Error('The rennet is not in.');
  const at = ended.happenedAt + TWO_MINUTES_MS;
  let device: DeviceState = { deviceId: 'phone', deviceSeq: 0, clock: undefined };
  const ofThatTap = events.filter(
    ({ happenedAt, deviceSeq, kind }) =>
      happenedAt === ended.happenedAt && deviceSeq >= ended.deviceSeq - 1 && kind !== 'prepared',
  );
  return ofThatTap.map(({ kind, body }, index) => {
    const randomBytes = new Uint8Array(10).fill(200 + index);
    const made = newEvent({ kind, body, streamId: ended.streamId, happenedAt: at, loggedAt: at, person: '', device, randomBytes }); // prettier-ignore
    device = made.device;
    return made.event;
  });
}

/** A pot whose rennet was noted on two devices that have met since. */
export async function notedTwice(server: TestServer): Promise<Beginning> {
  const begin = await potAt(server, 'set', { minutes: 4 });
  await sendEvents(server.url, notedAgain(stoodAt('set')));
  return begin;
}
