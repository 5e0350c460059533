import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { simulate } from '../../../forecast/simulate.ts';
import { MINUTE, Walk } from '../../../../tests/walked-make.ts';
import { keepForesight } from '../forecasting/keep-foresight.ts';
import { mayShow, readForesight, versionOf } from './kept-foresight.ts';

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

  it('is read again as it was written, with what was foreseen at the opening and before the last reading', async () => {
    const [forecast, planned, before] = [1, 2, 3].map((seed) => simulate({ plan: walk.plan, seed, members: 20 }));
    if (forecast === undefined || planned === undefined || before === undefined) throw new Error('three are foreseen');
    const streamId = 'batch:ash';
    expect(await readForesight(streamId)).toBe(null);
    const version = versionOf(then);
    await keepForesight({ streamId, version, writtenAt: AT, forecast, earlier: { planned: null, before: null } });
    expect(await readForesight(streamId)).toMatchObject({ forecast, planned: null, before: null });
    await keepForesight({ streamId, version, writtenAt: AT, forecast, earlier: { planned, before } });
    expect(await readForesight(streamId)).toMatchObject({ forecast, planned, before, writtenAt: AT });
    // Two minutes later only the forecast is a new one.
    const later = simulate({ plan: walk.plan, seed: 4, members: 20 });
    await keepForesight({ streamId, version, writtenAt: AT + 2 * MINUTE, forecast: later, earlier: null });
    expect(await readForesight(streamId)).toMatchObject({
      forecast: later,
      planned,
      before,
      writtenAt: AT + 2 * MINUTE,
    });
  });

  it('is kept for a dozen batches, the oldest are dropped whole', async () => {
    const forecast = simulate({ plan: walk.plan, members: 20 });
    for (let batch = 0; batch < 14; batch++) {
      const earlier = { planned: forecast, before: null };
      await keepForesight({ streamId: `batch:day-${batch}`, version: versionOf(then), writtenAt: AT + (batch + 5) * MINUTE, forecast, earlier }); // prettier-ignore
    }
    expect(await readForesight('batch:day-1')).toBe(null);
    expect(await readForesight('batch:day-2')).toMatchObject({ planned: forecast });
    expect(await readForesight('batch:day-13')).toMatchObject({ planned: forecast });
  });
});
