import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { streamLog } from '../../../../tests/lot-log.ts';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { foldLot, type LotRecord } from '../../../record/lot-record.ts';
import { keptLots } from './kept-lots.ts';
import { draftOfLot, freshLot, lotNotes, type LotDraft } from './lot-draft.ts';
import { lotLines } from './lot-lines.ts';

const NOW = Date.UTC(2026, 10, 25, 12, 0);
const words = (file: string): object => JSON.parse(readFileSync(new URL(`../../../../words/en-GB/${file}.json`, import.meta.url), 'utf8')) as object; // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': { lots: words('lots'), bench: words('bench') } } })); // prettier-ignore
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
const plain = (text: string): string => text.replace(/[\u202F\u00A0]/g, ' ');

const blank = freshLot({ kind: 'culture', today: '2026-11-25' });
const packet: LotDraft = { ...blank, name: ' Blue ', texts: { strength: '', treatsL: '2', massG: '0,8' } };
const notes = (draft: LotDraft, units: 'metric' | 'us' = 'metric', was: LotRecord | null = null) => lotNotes({ draft, units, streamId: 'lot:blue', was }); // prettier-ignore
const folded = (draft: LotDraft, units: 'metric' | 'us' = 'metric'): LotRecord => {
  const read = notes(draft, units);
  if ('problems' in read) throw new Error(read.problems[0]?.remedy);
  return foldLot(streamLog('lot:blue', read.notes.map(({ kind, body }) => [NOW, kind, body as object] as const))); // prettier-ignore
};
const kept = (lot: LotRecord, uses = 0): string[] =>
  lotLines({ kept: { lot, uses }, now: NOW, instantOf: (day) => Date.parse(day), say, write }).map(plain);

describe('a packet or bottle typed in', () => {
  it('is kept in litres and grams, whatever units it was typed in', () => {
    expect(folded(packet)).toMatchObject({
      kind: 'culture',
      name: 'Blue',
      treatsL: 2,
      massG: 0.8,
      form: 'freeze-dried',
    });
    expect(folded(packet, 'us').treatsL).toBeCloseTo(7.571, 3);
    expect(draftOfLot({ lot: folded(packet, 'us'), units: 'us' }).texts.treatsL).toBe('2');
  });

  it('needs only a name, and says what is wrong with a figure in the house form', () => {
    expect(folded({ ...packet, texts: blank.texts })).toMatchObject({ treatsL: null, massG: null });
    const read = notes({ ...packet, name: ' ', texts: { ...packet.texts, treatsL: 'ten', massG: '9000' } });
    expect('problems' in read && read.problems.map(({ field }) => field)).toEqual(['name', 'treatsL', 'massG']);
    const label = notes({ ...freshLot({ kind: 'rennet', today: '' }), name: 'Brown', texts: { ...blank.texts, strength: '15000' } }); // prettier-ignore
    expect('problems' in label && label.problems[0]?.remedy).toContain('1:15000');
  });

  it('counts a strength in the unit of its form', () => {
    const rennet = {
      ...freshLot({ kind: 'rennet', today: '' }),
      name: 'Brown',
      texts: { ...blank.texts, strength: '200' },
    };
    expect(folded(rennet).strength).toEqual({ value: 200, unit: 'IMCU/mL' });
    expect(folded({ ...rennet, form: 'powder', texts: { ...blank.texts, strength: '2000' } }).strength?.unit).toBe('IMCU/g'); // prettier-ignore
    expect(folded({ ...freshLot({ kind: 'calcium', today: '' }), name: 'Ca', texts: { ...blank.texts, strength: '33' } }).strength).toEqual({ value: 33, unit: '%' }); // prettier-ignore
  });

  it('notes an opening once, and leaves it alone when only the name is changed', () => {
    const opened = { ...packet, openedOn: '2026-11-20' };
    const lot = folded(opened);
    expect(lot.openedOn).toBe('2026-11-20');
    const again = notes({ ...opened, name: 'Bluer' }, 'metric', lot);
    expect('notes' in again && again.notes.map(({ kind }) => kind)).toEqual(['lotReceived']);
  });
});

describe('the list', () => {
  const received = (name: string) => ({ lotKind: 'culture', name, form: 'freeze-dried', treatsL: 10 });

  it('shows what is in the house, by name, and not what was taken back or used up', () => {
    const streams = new Map([
      ['lot:b', streamLog('lot:b', [[NOW, 'lotReceived', received('Blue')]])],
      ['lot:a', streamLog('lot:a', [[NOW, 'lotReceived', received('Amber')]])],
      ['lot:c', streamLog('lot:c', [[NOW, 'lotReceived', received('Gone')], [NOW, 'lotUsedUp', { usedUpOn: '2026-11-25' }]])],
      ['lot:d', streamLog('lot:d', [[NOW, 'lotReceived', received('Slip')], [NOW, 'retracted', 0]])],
    ]); // prettier-ignore
    expect(keptLots(streams).map(({ lot }) => lot.name)).toEqual(['Amber', 'Blue']);
  });

  it('tells each in a few plain lines', () => {
    expect(kept(folded({ ...packet, openedOn: '2026-11-24' }), 3)).toEqual([
      'Freeze-dried culture, one packet treats 2.0 L, weighs 0.80 g.',
      'Came on Wednesday 25 November, opened on Tuesday 24 November.',
      '3 makes on record with it.',
    ]);
    expect(kept(folded({ ...freshLot({ kind: 'rennet', today: '' }), name: 'Brown' }))).toEqual(['Liquid rennet, the label says no strength.']); // prettier-ignore
  });
});
