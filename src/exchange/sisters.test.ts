import { describe, expect, it } from 'vitest';
import type { Answers } from '../make/setup.ts';
import type { BatchRecord } from '../record/batch-record.ts';
import type { Event } from '../record/event.ts';
import { foldBatch } from '../record/fold.ts';
import { newEvent, type DeviceState } from '../record/new-event.ts';
import { sistersOf } from './sisters.ts';

const NINE = Date.UTC(2026, 2, 4, 9, 0);
const HOUR = 3_600_000;

function pot(
  name: string,
  input: {
    hours?: number;
    answers?: Partial<Answers>;
    person?: string;
    lot?: string;
    isBegun?: boolean;
    demo?: boolean;
  } = {},
): BatchRecord {
  // prettier-ignore
  const { hours = 0, answers = {}, person = '', lot, isBegun = true, demo } = input;
  const zeroAt = NINE + hours * HOUR;
  let device: DeviceState = { deviceId: `tablet-${name}`, deviceSeq: 0, clock: undefined };
  const notes: (readonly [kind: string, body: object])[] = [
    ['batchOpened', { make: {}, answers: { milk: { volumeL: 12 }, ...answers }, name, lotCode: name, zeroAt, demo }],
    ...(isBegun ? ([['stepStarted', { stepId: 'warm' }]] as const) : []),
    ...(lot === undefined ? [] : ([['added', { ingredient: 'rennet', amount: 1, unit: 'mL', fractionOfPlan: 1, lot }]] as const)), // prettier-ignore
  ];
  const events = notes.map(([kind, body], index): Event => {
    const made = newEvent({ kind, body, streamId: `batch:${name}`, happenedAt: zeroAt, loggedAt: zeroAt, person, device, randomBytes: new Uint8Array(10).fill(index) }); // prettier-ignore
    device = made.device;
    return made.event;
  });
  return foldBatch(events);
}
const names = (sisters: ReturnType<typeof sistersOf>): string[] => sisters.map(({ record }) => record.name);

describe('pots beside this one', () => {
  const ash = pot('Ash');

  it('are those begun the same morning; not the one of yesterday, nor one that nobody has begun', () => {
    const others = [pot('Birch', { hours: 1 }), pot('Cedar', { hours: -24 }), pot('Damson', { isBegun: false }), ash];
    expect(names(sistersOf({ record: ash, others }))).toEqual(['Ash', 'Birch']);
  });

  it('leave the worked example among itself', () => {
    expect(names(sistersOf({ record: ash, others: [pot('Birch', { demo: true })] }))).toEqual(['Ash']);
  });

  it('are of one milk, packet and bottle where nobody names a lot, and by other hands', () => {
    const [own, sister] = sistersOf({ record: ash, others: [pot('Birch')] });
    for (const thing of ['milk', 'packet', 'bottle', 'room'] as const) {
      expect(sister?.sharing[thing]).toBe(own?.sharing[thing]);
    }
    expect(sister?.sharing.maker).not.toBe(own?.sharing.maker);
    const [first, second] = sistersOf({ record: pot('Ash', { person: 'Ines' }), others: [pot('Birch', { person: 'Ines' })] }); // prettier-ignore
    expect(first?.sharing.maker).toBe(second?.sharing.maker);
  });

  it('share a lot only by its name, whether it was answered or noted as it went in', () => {
    const others = [
      pot('Birch', { answers: { rennet: { lot: 'lot:seven' }, milk: { volumeL: 12, lot: 'evening' } } }),
      pot('Cedar', { lot: 'lot:seven' }),
    ];
    const [own, birch, cedar] = sistersOf({ record: ash, others });
    expect(birch?.sharing.bottle).toBe('lot:seven');
    expect(cedar?.sharing.bottle).toBe('lot:seven');
    expect(own?.sharing.bottle).not.toBe('lot:seven');
    expect(birch?.sharing.milk).toBe('evening');
  });
});
