import { useMemo } from 'react';
import type { Silence } from '../../../exchange/silence.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { invitationView } from './invitation-view.ts';
import type { Telling } from './said.ts';
import { silenceView } from './silence-view.ts';
import { sistersView } from './sisters-view.ts';
import type { Foresight } from './use-batch.ts';
import { useMadeBefore } from './use-made-before.ts';
import type { Learning } from './use-sisters.ts';
import { vatView } from './vat-view.ts';

/** Minutes are all that the card tells of the time: by the clock alone it is worked out anew this often. */
const EVERY_MS = 5_000;

/** What the card and all beside it say; the same objects until something is noted or foreseen, or the clock has gone on. */
export function useViews(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly foresight: Foresight;
  readonly silence: Silence | null;
  readonly learning: Learning | null;
  readonly nowAt: number;
  readonly telling: Telling;
}) {
  const { record, plan, foresight, silence, learning, nowAt, telling } = input;
  const { forecast, planned, before } = foresight;
  const madeBefore = useMadeBefore(record);
  const tickAt = Math.floor(nowAt / EVERY_MS) * EVERY_MS;
  // Never before the last thing noted, which the card knows of already; nor after now, where another device's clock is ahead.
  const lastAt = record.entries.reduce((latest, entry) => Math.max(latest, entry.at), tickAt);
  const at = Math.min(lastAt, nowAt);
  return useMemo(() => {
    const asked = silenceView({ silence, record, plan, forecast, telling });
    const view = vatView({ madeBefore, record: asked?.record ?? record, plan, forecast, planned, before, nowAt: at, telling }); // prettier-ignore
    const invitation = invitationView({ forecast, standing: view.standing, tested: view.readiness?.judgement ?? null, telling }); // prettier-ignore
    return { asked, view, invitation, sisters: sistersView({ learning, plan, forecast, telling }) };
  }, [record, plan, forecast, planned, before, silence, learning, madeBefore, at, telling]);
}
