import { describe, expect, it } from 'vitest';
import { batchBodies, otherBodies } from './event.ts';
import { keepingBodies } from './keeping-events.ts';
import { isAtLeast, mayNote, whyNotNoted } from './may-note.ts';

const KINDS = Object.keys({ ...batchBodies, ...otherBodies, ...keepingBodies });
const helper = { role: 'helper', logDevice: 'phone' } as const;
const by = (deviceId: string, kind: string, body: Record<string, string> = {}) => ({ streamId: 'batch:ash', deviceId, kind, body }); // prettier-ignore
const why = (event: ReturnType<typeof by>, replaced?: ReturnType<typeof by>): string | null =>
  whyNotNoted({ by: helper, event, replaced });

describe('who may note what', () => {
  it('lets a maker note everything and a reader nothing', () => {
    expect(KINDS.filter((kind) => !mayNote('maker', kind))).toEqual([]);
    expect(KINDS.filter((kind) => mayNote('reader', kind))).toEqual([]);
    const reading = by('phone', 'reading');
    expect(whyNotNoted({ by: { role: 'reader', logDevice: 'phone' }, event: reading, replaced: undefined })).toMatch(/look only/); // prettier-ignore
    expect(whyNotNoted({ by: { role: 'maker', logDevice: null }, event: reading, replaced: undefined })).toBeNull();
  });

  it('lets a helper note what is read, judged and weighed, and nothing that decides how the make goes on', () => {
    for (const kind of ['reading', 'judged', 'noted', 'weighed', 'alarmAnswered']) expect(why(by('phone', kind))).toBeNull(); // prettier-ignore
    for (const kind of [
      'batchOpened',
      'stepEnded',
      'added',
      'choiceTaken',
      'batchFinished',
      'makeSaved',
      'lotReceived',
      'pieceEnded',
      'brineMade',
    ])
      // prettier-ignore
      expect(why(by('phone', kind)), kind).toMatch(/for a maker/);
    expect(why(by('phone', 'a-kind-of-next-year'))).toMatch(/for a maker/);
  });

  it('lets a helper take back its own reading, but no reading and no step of another', () => {
    const back = by('phone', 'retracted');
    expect(why(back, by('phone', 'reading'))).toBeNull();
    expect(why(back, by('phone', 'retracted'))).toBeNull();
    expect(why(back, by('desk', 'reading'))).toMatch(/noted itself/);
    expect(why(back, by('phone', 'stepEnded'))).toMatch(/noted itself/);
    expect(why(back, { ...by('phone', 'reading'), streamId: 'batch:birch' })).toMatch(/noted itself/);
    expect(why(back)).toMatch(/noted itself/);
    expect(whyNotNoted({ by: { role: 'helper', logDevice: null }, event: back, replaced: by('phone', 'reading') })).not.toBeNull(); // prettier-ignore
  });

  it('lets a helper set its own reading right as a reading, not as the end of a step', () => {
    expect(why(by('phone', 'corrected', { kind: 'reading' }), by('phone', 'reading'))).toBeNull();
    expect(why(by('phone', 'corrected', { kind: 'stepEnded' }), by('phone', 'reading'))).toMatch(/noted itself/);
  });

  it('takes nothing from a helper in the name of another device', () => {
    expect(why(by('desk', 'reading'))).toMatch(/name of another/);
    const script = { role: 'helper', logDevice: null } as const;
    expect(whyNotNoted({ by: script, event: by('desk', 'reading'), replaced: undefined })).toMatch(/name of another/);
  });

  it('knows which role does all that another may', () => {
    expect(isAtLeast('maker', 'helper')).toBe(true);
    expect(isAtLeast('helper', 'helper')).toBe(true);
    expect(isAtLeast('reader', 'helper')).toBe(false);
  });
});
