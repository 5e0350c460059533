import { describe, expect, it } from 'vitest';
import { openWords, sayFrom } from './words.ts';

describe('what is said from the catalogues', () => {
  const catalogues = { 'en-GB': { vat: { curd: { drain_one: 'Drain {{count}} curd', drain_other: 'Drain {{count}} curds' } } } }; // prettier-ignore

  it('is the same sentence however often it is said, and another for other figures', () => {
    const say = sayFrom(openWords({ language: 'en-GB', catalogues }));
    for (let time = 0; time < 2; time++) {
      expect(say('vat:curd.drain', { count: 1 })).toBe('Drain 1 curd');
      expect(say('vat:curd.drain', { count: 2 })).toBe('Drain 2 curds');
    }
  });

  it('is the sentence itself once its words have come, where the key had to stand in for it', () => {
    const words = openWords({ language: 'en-GB', catalogues });
    const say = sayFrom(words);
    expect(say('pots:whey')).toBe('whey');
    words.addResourceBundle('en-GB', 'pots', { whey: 'Whey off' });
    expect(say('pots:whey')).toBe('Whey off');
  });
});
