import { describe, expect, it } from 'vitest';
import { MINUTE, NINE, telling, Walk } from '../../../../tests/walked-make.ts';
import { historyOf } from '../../../exchange/history.ts';
import { silenceOf } from '../../../exchange/silence.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { standingOf } from './current-step.ts';
import { silenceView, type SilenceView } from './silence-view.ts';

/** What is asked at this minute of a walked make. */
function askedAt(walk: Walk, nowMin: number): SilenceView | null {
  const { record, plan } = walk;
  const nowAt = NINE + nowMin * MINUTE;
  const silence = silenceOf({ record, steps: plan.steps, nowAt });
  const assumedFromMin = silence === null ? {} : { assumedFromMin: (silence.sinceAt - record.zeroAt) / MINUTE };
  const history = { ...historyOf({ record, nowAt }), ...assumedFromMin };
  const forecast = simulate({ plan, history, members: 60, seed: 1 });
  return silenceView({ silence, record, plan, forecast, telling });
}

describe('after two hours in which nobody noted anything', () => {
  const walk = new Walk({ pHMeter: false });
  walk.to('set');
  const setAt = walk.nowMin;
  const asked = askedAt(walk, setAt + 120);

  it('says since when, what is assumed by when, and where the make would be now', () => {
    expect(asked?.text).toMatch(/^Nothing noted since \d\d:\d\d\. Assumed as planned: .+ \d\d:\d\d, .+ \d\d:\d\d; now: .+\. Is that so\?$/); // prettier-ignore
    expect(asked?.text).toContain(telling.write.clock(NINE + setAt * MINUTE));
    expect(asked?.no.label).toBe('No, still: Leave it to set');
  });

  it('shows the card of the step that would be running, and keeps nothing of it', () => {
    const shown = standingOf({ record: asked?.record ?? walk.record, plan: walk.plan });
    expect(shown.stage).toBe('running');
    expect(shown.step?.id).not.toBe('set');
    expect(standingOf({ record: walk.record, plan: walk.plan }).step?.id).toBe('set');
  });

  it('asks nothing sooner, nor where the plan has the same step running anyway', () => {
    expect(askedAt(walk, setAt + 20)).toBeNull();
  });

  it('notes each step at its own minute when the plan was kept, and asks no more', () => {
    const kept = new Walk({ pHMeter: false });
    kept.to('set');
    kept.nowMin = setAt + 120;
    kept.note(asked?.yes.entries ?? []);
    expect(standingOf({ record: kept.record, plan: kept.plan }).step?.id).toBe(
      standingOf({ record: asked?.record ?? kept.record, plan: kept.plan }).step?.id,
    );
    const set = kept.record.steps.find((step) => step.stepId === 'set');
    const cut = kept.record.steps.find((step) => step.stepId === 'cut');
    expect(set?.endedAt).toBeLessThan(NINE + (setAt + 70) * MINUTE);
    expect(cut?.startedAt).toBe(set?.endedAt);
    expect(set?.said).toBe('as planned, said later');
    expect(askedAt(kept, kept.nowMin + 1)).toBeNull();
  });

  it('leaves the make where it was when it is still there, and asks no more', () => {
    const late = new Walk({ pHMeter: false });
    late.to('set');
    late.nowMin = setAt + 120;
    late.note(asked?.no.entries ?? []);
    expect(standingOf({ record: late.record, plan: late.plan }).step?.id).toBe('set');
    expect(askedAt(late, late.nowMin + 1)).toBeNull();
  });
});
