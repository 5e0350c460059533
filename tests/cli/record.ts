/** A short record of an invented make, event by event, as a device writes it. */
import { readFileSync } from 'node:fs';
import type { Event } from '../../src/record/event.ts';
import { newEvent, type DeviceState } from '../../src/record/new-event.ts';

const make: unknown = JSON.parse(readFileSync(new URL('../../makes/stretched-ball.json', import.meta.url), 'utf8'));
const ZERO = Date.UTC(2026, 2, 2, 8, 0);

/** Milk warmed and soured for an hour and a half, with the pH readings given (minute, value). */
export function shortRecord(readings: readonly (readonly [number, number])[]): Event[] {
  let device: DeviceState = { deviceId: 'rowan', deviceSeq: 0, clock: undefined };
  let made = 0;
  const write = (minute: number, kind: string, body: unknown): Event => {
    const at = ZERO + minute * 60_000;
    made += 1;
    const randomBytes = Uint8Array.from({ length: 10 }, (_, index) => (made * 31 + index * 7) % 256);
    const next = newEvent({ kind, body, streamId: 'batch:rowan-1', happenedAt: at, loggedAt: at, person: 'Larkenshaw', device, randomBytes }); // prettier-ignore
    device = next.device;
    return next.event;
  };
  const opened = { make, answers: { milk: { volumeL: 12 } }, name: 'Rowan', lotCode: 'L-1', zeroAt: ZERO };
  const notes: [number, string, unknown][] = [
    [0, 'stepStarted', { stepId: 'warm' }],
    [31, 'stepEnded', { stepId: 'warm' }],
    [31, 'stepStarted', { stepId: 'add-culture' }],
    [35, 'stepEnded', { stepId: 'add-culture' }],
    [35, 'stepStarted', { stepId: 'ripen' }],
    ...readings.map(([minute, value]): [number, string, unknown] => [minute, 'reading', { quantity: 'pH', value, sample: 'milk' }]),
    [80, 'judged', { judgement: 'tang', grade: 'none' }],
  ]; // prettier-ignore
  return [write(-1, 'batchOpened', opened), ...notes.sort((a, b) => a[0] - b[0]).map((note) => write(...note))];
}
