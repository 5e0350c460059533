import { describe, expect, it } from 'vitest';
import type { Event } from './event.ts';
import { foldBatch } from './fold.ts';
import { newEvent, type DeviceState } from './new-event.ts';

const NINE = Date.UTC(2026, 2, 4, 9, 0);
type Line = readonly [minute: number, kind: string, body: object];
let made = 0;

/** What one device wrote, out of touch with the others. */
function logOf(deviceId: string, lines: readonly Line[]): Event[] {
  let device: DeviceState = { deviceId, deviceSeq: 0, clock: undefined };
  return lines.map(([minute, kind, body]) => {
    const at = NINE + minute * 60_000;
    const one = newEvent({ kind, body, streamId: 'batch:ash', happenedAt: at, loggedAt: at, person: '', device, randomBytes: new Uint8Array(10).fill(made++) }); // prettier-ignore
    device = one.device;
    return one.event;
  });
}

const rennetIn = (minute: number): Line[] => [
  [minute, 'added', { ingredient: 'rennet', amount: 4, unit: 'mL', fractionOfPlan: 1 }],
  [minute, 'stepEnded', { stepId: 'add-rennet', said: 'Rennet in' }],
  [minute, 'stepStarted', { stepId: 'set' }],
];
const tablet = logOf('tablet', [[60, 'stepStarted', { stepId: 'add-rennet' }], ...rennetIn(62)]);

describe('the end of a step noted on two devices', () => {
  it('is found once both have met, with what went in; the rennet counts once until somebody says that it was twice', () => {
    const phone = logOf('phone', rennetIn(65));
    const record = foldBatch([...phone, ...tablet]);
    expect(record.twice).toEqual([
      { alarmId: `twice.${phone[1]?.id ?? ''}`, stepId: 'add-rennet', firstAt: NINE + 62 * 60_000, secondAt: NINE + 65 * 60_000, ingredient: 'rennet', again: phone.map(({ id }) => id), answer: null },
    ]); // prettier-ignore
    expect(record.added).toHaveLength(1);
    expect(record.added[0]?.at).toBe(NINE + 62 * 60_000);
    expect(record.entries.filter(({ kind }) => kind === 'added')).toHaveLength(2);
    // Whichever way round they met.
    expect(foldBatch([...tablet, ...phone])).toEqual(record);
  });

  it('counts both once that is answered, and asks no more', () => {
    const phone = logOf('phone', rennetIn(65));
    const both = logOf('desk', [[70, 'alarmAnswered', { alarmId: `twice.${phone[1]?.id ?? ''}`, answer: 'both' }]]);
    const record = foldBatch([...tablet, ...phone, ...both]);
    expect(record.twice.map(({ answer }) => answer)).toEqual(['both']);
    expect(record.added).toHaveLength(2);
  });

  it('leaves one set of notes where the later one is taken back as the same', () => {
    const phone = logOf('phone', rennetIn(65));
    const back = logOf('desk', phone.map(({ id }): Line => [70, 'retracted', { replaces: id }])); // prettier-ignore
    const record = foldBatch([...tablet, ...phone, ...back]);
    expect(record.twice).toEqual([]);
    expect(record.added).toHaveLength(1);
    expect(record.steps.find(({ stepId }) => stepId === 'set')?.startedAt).toBe(NINE + 62 * 60_000);
  });

  it('asks nothing of one device alone, of a step taken back and ended anew, or of two ends far apart', () => {
    const [, , ended] = tablet;
    const back = logOf('desk', [[63, 'retracted', { replaces: ended?.id ?? '' }]]);
    const anew = logOf('desk2', [[64, 'stepEnded', { stepId: 'add-rennet' }]]);
    expect(foldBatch([...tablet, ...back, ...anew]).twice).toEqual([]);
    expect(foldBatch([...tablet, ...logOf('phone', rennetIn(120))]).twice).toEqual([]);
    expect(foldBatch(tablet).twice).toEqual([]);
  });

  it('does not take away half a dose that another device noted later by itself', () => {
    const half = logOf('phone', [[75, 'added', { ingredient: 'rennet', amount: 2, unit: 'mL', fractionOfPlan: 0.5 }]]);
    expect(foldBatch([...tablet, ...half]).added).toHaveLength(2);
  });
});
