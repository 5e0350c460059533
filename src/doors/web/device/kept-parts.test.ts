import { describe, expect, it } from 'vitest';
import { keptParts } from './kept-parts.ts';

const card = () => ({
  verb: 'Leave the milk to ripen',
  numbers: [{ label: 'Milk', value: 32 }],
  coming: { text: 'Then rennet', prepare: ['Boil water'] },
  last: null,
});

describe('a card that is worked out anew', () => {
  it('is the same object where it says the same', () => {
    const before = card();
    expect(keptParts(before, card())).toBe(before);
  });

  it('keeps the parts that say the same, and says what is new', () => {
    const before = card();
    const now = { ...card(), numbers: [{ label: 'Milk', value: 33 }] };
    const kept = keptParts(before, now);
    expect(kept).toEqual(now);
    expect(kept).not.toBe(before);
    expect(kept.coming).toBe(before.coming);
    expect(kept.numbers).not.toBe(before.numbers);
  });

  it('takes neither a shorter nor a longer list for the same, nor a part left out for one that is there', () => {
    const before: { prepare: string[]; last?: string | undefined } = { prepare: ['Boil water'], last: undefined };
    expect(keptParts(before, { prepare: [], last: undefined }).prepare).toEqual([]);
    expect(keptParts(before, { prepare: ['Boil water', 'Weigh salt'], last: undefined }).prepare).toHaveLength(2);
    expect(keptParts(before, { prepare: ['Boil water'] })).not.toBe(before);
    expect('last' in keptParts(before, { prepare: ['Boil water'] })).toBe(false);
    expect('last' in keptParts<typeof before>({ prepare: ['Boil water'] }, before)).toBe(true);
  });

  it('does not look into what is no plain data', () => {
    const before = { streams: new Map([['batch:ash', 1]]) };
    const now = { streams: new Map([['batch:ash', 2]]) };
    expect(keptParts(before, now).streams).toBe(now.streams);
  });
});
