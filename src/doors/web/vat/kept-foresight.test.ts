import { describe, expect, it } from 'vitest';
import { MINUTE, Walk } from '../../../../tests/walked-make.ts';
import { mayShow, versionOf } from './kept-foresight.ts';

const AT = Date.UTC(2026, 2, 4, 10, 0);

/** Ash in its first step, and what was foreseen of it then. */
function ripening() {
  const walk = new Walk({ pHMeter: true });
  walk.to('ripen');
  return { walk, kept: { version: versionOf(walk.record), writtenAt: AT } };
}

describe('what was foreseen when the card was last open', () => {
  const { walk, kept } = ripening();
  const then = walk.record;

  it('is shown again for the same record, for a quarter of an hour', () => {
    expect(mayShow({ kept, record: then, nowAt: AT + 2 * MINUTE })).toBe(true);
    expect(mayShow({ kept, record: then, nowAt: AT + 16 * MINUTE })).toBe(false);
    // A clock that was set back says nothing of how old it is.
    expect(mayShow({ kept, record: then, nowAt: AT - 16 * MINUTE })).toBe(false);
  });

  it('is not shown once anything was noted, or taken back', () => {
    walk.note([{ kind: 'reading', body: { quantity: 'temperatureC', value: 37.1, sample: 'milk', instrumentId: 'hand' } }]); // prettier-ignore
    const noted = walk.record;
    expect(mayShow({ kept, record: noted, nowAt: AT })).toBe(false);
    const afterwards = { version: versionOf(noted), writtenAt: AT };
    expect(mayShow({ kept: afterwards, record: noted, nowAt: AT })).toBe(true);
    walk.note([{ kind: 'retracted', body: { replaces: walk.events.at(-1)?.id ?? '' } }]);
    expect(mayShow({ kept: afterwards, record: walk.record, nowAt: AT })).toBe(false);
  });
});
