import { describe, expect, it } from 'vitest';
import { MINUTE, NINE, telling, Walk } from '../../../../tests/walked-make.ts';
import { historyOf } from '../../../exchange/history.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { standingOf } from './current-step.ts';
import { invitationView, type InvitationView } from './invitation-view.ts';

function invitedAfter(walk: Walk, minutes: number, invitation?: Forecast['invitation']): InvitationView | null {
  const { record, plan } = walk;
  const history = historyOf({ record, nowAt: NINE + (walk.nowMin + minutes) * MINUTE });
  const found = simulate({ plan, history, members: 200, seed: 1 });
  const forecast = invitation === undefined ? found : { ...found, invitation };
  return invitationView({ forecast, standing: standingOf({ record, plan }), tested: 'stretch', telling });
}

describe('a reading worth taking', () => {
  it('is asked for in one line, with the span before and after it, and opens the right pad', () => {
    const walk = new Walk({ pHMeter: true });
    walk.to('rest-drained');
    // When it is worth its while follows from what was noted before; within the first half hour it always is.
    const invited = [5, 12, 20, 30].map((minutes) => invitedAfter(walk, minutes)).find((view) => view !== null);
    expect(invited?.text).toMatch(
      /^A pH of the curd now would narrow the end of this step from a span of .+ to about .+\.$/,
    );
    expect(invited?.page).toEqual({ at: 'pad', only: 'pH' });
    expect(invited?.label).toBe('Read it');
  });

  it('leaves the test piece to the button that the card has for it', () => {
    const walk = new Walk({ pHMeter: false });
    walk.to('rest-drained');
    const invited = invitedAfter(walk, 12, { stepId: 'rest-drained', judgement: 'stretch', spanMin: 76, thenMin: 48 });
    expect(invited?.text).toMatch(/^A test piece in hot water now .* from a span of 1.h 15.* to about 50.min/);
    expect(invited?.label).toBeNull();
    expect(invited?.page).toEqual({ at: 'judge', judgement: 'stretch' });
  });

  it('is not asked for while the milk ripens by the clock', () => {
    const walk = new Walk({ pHMeter: true });
    walk.to('ripen');
    expect(invitedAfter(walk, 10)).toBeNull();
  });
});
