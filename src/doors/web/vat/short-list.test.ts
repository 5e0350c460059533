import { describe, expect, it } from 'vitest';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { telling, Walk } from '../../../../tests/walked-make.ts';
import { pausesOf } from './get-ready.ts';
import { madeBefore, PATH_ITEM, readyList } from './short-list.ts';

const STANDING = ['milk.pot', 'culture.packet', 'rennet.bottle', 'rennet.blade', 'milk.carton'];
const ticked = (record: BatchRecord): BatchRecord => {
  const walk = new Walk({ pHMeter: false });
  walk.note(STANDING.map((item) => ({ kind: 'prepared', body: { item } })));
  return { ...record, prepared: walk.record.prepared };
};
const fresh = (): Walk => new Walk({ pHMeter: false });
const pauses = pausesOf({ plan: fresh().plan, forecast: null, telling });
const asked = (list: ReturnType<typeof readyList>): string[] =>
  list.pauses.flatMap(({ items }) => items.map(({ id }) => id));

/** The make of the week before, in the same pot, with everything ticked. */
const lastWeek = (change: (record: BatchRecord) => BatchRecord = (same) => same): BatchRecord => {
  const { record } = fresh();
  return change({ ...ticked(record), batchId: 'last-week', zeroAt: record.zeroAt - 7 * 86_400_000, finishedAt: 1 });
};

describe('the list before a make', () => {
  it('is the full one the first time', () => {
    const list = readyList({ pauses, record: fresh().record, before: null });
    expect(list.path).toBe('full');
    expect(list.pauses).toBe(pauses);
  });

  it('leaves out what was right in the same pot last time, and never hands, scalding or hot water', () => {
    const list = readyList({ pauses, record: fresh().record, before: lastWeek() });
    expect(list.path).toBe('short');
    expect(asked(list)).not.toContain('milk.pot');
    expect(asked(list)).toEqual(
      expect.arrayContaining(['milk.hands', 'milk.surfaces', 'milk.thermometer', 'stretch.where', 'stretch.words']),
    );
    expect(list.leftOut).toBe(pauses.flatMap(({ items }) => items).length - asked(list).length);
  });

  it('asks again for a pot that is another one, a bottle that nobody named and a carton that is new every time', () => {
    const other = lastWeek((record) => ({ ...record, answers: { milk: { volumeL: 12 }, pot: { volumeL: 30 } } }));
    expect(asked(readyList({ pauses, record: fresh().record, before: other }))).toContain('milk.pot');
    const same = asked(readyList({ pauses, record: fresh().record, before: lastWeek() }));
    expect(same).toEqual(expect.arrayContaining(['milk.carton', 'rennet.bottle', 'culture.packet']));
  });

  it('leaves a bottle out where both makes name the same one', () => {
    const answers = { milk: { volumeL: 12 }, rennet: { lot: 'lot:brown' } };
    const record = { ...fresh().record, answers };
    const list = readyList({ pauses, record, before: lastWeek((then) => ({ ...then, answers })) });
    expect(asked(list)).not.toContain('rennet.bottle');
  });

  it('follows the one who chooses, at a first make too', () => {
    const walk = fresh();
    walk.note([{ kind: 'prepared', body: { item: PATH_ITEM, unit: 'short' } }]);
    const list = readyList({ pauses, record: walk.record, before: null });
    expect(asked(list).some((id) => STANDING.includes(id))).toBe(false);
    walk.note([{ kind: 'prepared', body: { item: PATH_ITEM, unit: 'full' } }]);
    expect(readyList({ pauses, record: walk.record, before: lastWeek() }).path).toBe('full');
  });

  it('looks back to the last finished make of the same cheese, never to a later or an open one', () => {
    const { record } = fresh();
    const open = { ...lastWeek(), batchId: 'open', finishedAt: null };
    const older = { ...lastWeek(), batchId: 'older', zeroAt: record.zeroAt - 30 * 86_400_000 };
    const later = { ...lastWeek(), batchId: 'later', zeroAt: record.zeroAt + 1 };
    expect(madeBefore({ record, others: [record, open, older, lastWeek(), later] })?.batchId).toBe('last-week');
    expect(madeBefore({ record, others: [record, open, later] })).toBeNull();
  });
});
