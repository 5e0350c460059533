import { useCallback, useMemo } from 'react';
import type { Silence } from '../../../exchange/silence.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { invitationView } from './invitation-view.ts';
import type { KeyNumber } from './key-numbers.ts';
import type { Telling } from './said.ts';
import { silenceView } from './silence-view.ts';
import { sistersView } from './sisters-view.ts';
import { twiceView } from './twice-view.ts';
import type { Foresight } from './use-batch.ts';
import { useMadeBefore } from './use-made-before.ts';
import type { Learning } from './use-sisters.ts';
import { useKeptParts } from '../device/use-kept-parts.ts';
import { vatView } from './vat-view.ts';

/** By the clock alone the card is worked out anew this often, and each second while it counts seconds. */
const EVERY_MS = 5_000;

/** What the card and all beside it say; every part stays the same object for as long as it says the same. */
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
  const viewsAt = useCallback(
    (momentAt: number) => {
      const asked = silenceView({ silence, record, plan, forecast, telling });
      const view = vatView({ madeBefore, record: asked?.record ?? record, plan, forecast, planned, before, nowAt: momentAt, telling }); // prettier-ignore
      const invitation = invitationView({ forecast, standing: view.standing, tested: view.readiness?.judgement ?? null, telling }); // prettier-ignore
      return { asked, twice: twiceView({ record, plan, telling }), view, invitation, sisters: sistersView({ learning, plan, forecast, telling }) }; // prettier-ignore
    },
    [record, plan, forecast, planned, before, silence, learning, madeBefore, telling],
  );
  const views = useMemo(() => viewsAt(at), [viewsAt, at]);
  const secondAt = views.view.numbers.some(countsSeconds) ? nowAt : at;
  return useKeptParts(useMemo(() => (secondAt === at ? views : viewsAt(secondAt)), [views, viewsAt, at, secondAt]));
}

/** A key number below two minutes is told with its seconds. */
const countsSeconds = ({ written }: KeyNumber): boolean => written.number.includes(':') && written.unit === 'min';
