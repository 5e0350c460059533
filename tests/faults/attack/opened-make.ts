import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import type { Event } from '../../../src/record/event.ts';
import { ALL_KINDS } from '../../../src/record/keeping-events.ts';
import { newEvent, type DeviceState } from '../../../src/record/new-event.ts';

const MAKE = fileURLToPath(new URL('../../../makes/stretched-ball.json', import.meta.url));
const START = Date.UTC(2026, 10, 29, 8);

/** A make that goes on and a cheese that ages, so that what is sent meets something. */
export function opened(): Event[] {
  const make = z.record(z.string(), z.json()).parse(JSON.parse(readFileSync(MAKE, 'utf8')));
  let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  const lines = [
    ['batch:ash', 'batchOpened', { make, answers: { milk: { volumeL: 12 } }, name: 'Ash', lotCode: 'L1', zeroAt: START }],
    ['piece:rowan', 'pieceMade', { name: 'Rowan', cheese: 'a wheel', madeOn: '2026-11-01', rind: 'bare', care: { stays: [{ every: { turn: 1 } }], tasteDays: [30], source: 'test' } }],
  ] as const; // prettier-ignore
  return lines.map(([streamId, kind, body], index) => {
    const made = newEvent({ kind, body, streamId, happenedAt: START, loggedAt: START, person: 'M', device, randomBytes: new Uint8Array(10).fill(index), kinds: ALL_KINDS }); // prettier-ignore
    device = made.device;
    return made.event;
  });
}
