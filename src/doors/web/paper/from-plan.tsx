import { useMemo, type ReactNode } from 'react';
import { dayEndStep } from '../../../forecast/day-end.ts';
import { simulatedLength } from './length-of.ts';
import { classRunSheet, type RunPot } from '../../../exchange/paper/class-run.ts';
import type { PaperSheet } from '../../../exchange/paper/element.ts';
import { getReadySheet } from '../../../exchange/paper/get-ready.ts';
import { handOutSheet } from '../../../exchange/paper/hand-out.ts';
import { studentSheet } from '../../../exchange/paper/student-sheet.ts';
import type { Make } from '../../../make/make.ts';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { useMakes, useWholeMakes } from '../makes/use-makes.ts';
import type { Draft } from '../plan/draft.ts';
import { useLotDraft } from '../plan/use-lot-draft.ts';
import { usePlanning } from '../plan/use-planning.ts';
import { useBurners } from '../pots/use-burners.ts';
import { gaugeHref } from '../print/gauge-view.ts';
import { MakeSheet } from '../print/make-sheet.tsx';
import { utcOffsetMin } from '../vat/utc-offset.ts';
import type { Offered, SheetId } from './offered.ts';
import { PaperTable } from './paper-table.tsx';
import { useTold } from './use-told.ts';

const MINUTE_MS = 60_000;

/** Paper of the plan as it lies on the table. */
export function FromPlan({ sheet }: { readonly sheet: SheetId | null }): ReactNode {
  const { say, write } = useReader();
  const now = useNow(MINUTE_MS);
  const { listed } = useMakes();
  const makeIds = useMemo(() => listed.map(({ facts }) => facts.id), [listed]);
  const { draft } = useLotDraft({ makeIds, units: write.units, now });
  const { makeId } = draft;
  const { makes, failed } = useWholeMakes(useMemo(() => [makeId], [makeId]));
  const [make] = makes;
  if (make !== undefined) return <OfMake make={make} draft={draft} now={now} sheet={sheet} />;
  return <p role="status">{failed === null ? say('paper:working') : say('makes:lost', { why: failed })}</p>;
}

function OfMake({
  make,
  draft,
  now,
  sheet,
}: {
  readonly make: Make;
  readonly draft: Draft;
  readonly now: number;
  readonly sheet: SheetId | null;
}): ReactNode {
  const { say, write, book } = useReader();
  const { plan, forecast, schedule } = usePlanning({ draft, make, units: write.units, now, book });
  const { burners } = useBurners();
  const alone = useTold({ isInBoth: false });
  const inBoth = useTold({ isInBoth: true });
  const zeroAt = schedule?.zeroAt ?? null;
  const sheets = useMemo<readonly PaperSheet[] | null>(() => {
    if (plan === null || forecast === null || zeroAt === null) return null;
    const lastStepId = dayEndStep({ steps: plan.steps, lengthMin: simulatedLength(forecast) });
    const pots: RunPot[] = Array.from({ length: draft.pots.count }, (_, index) => ({
      potId: String(index),
      name: draft.pots.count === 1 ? null : say('paper:potNumber', { number: index + 1 }),
      plan,
      forecast,
      zeroAt: zeroAt + index * draft.pots.apartMin * MINUTE_MS,
      lastStepId,
    }));
    switch (sheet) {
      case 'ready':
        return [getReadySheet({ pots, told: alone })];
      case 'student':
        return [studentSheet({ plan, pot: { name: null, lotCode: null, day: write.date(zeroAt) }, lastStepId, told: alone })];
      case 'run':
        return [classRunSheet({ pots, burners, clashes: [], told: alone })];
      case 'handOut':
        return [handOutSheet({ plan, forecast, notes: {}, told: inBoth })];
      default:
        return [];
    }
  }, [sheet, plan, forecast, zeroAt, draft.pots, burners, alone, inBoth, say, write]); // prettier-ignore
  if (plan === null) return <p>{say('paper:none.plan')}</p>;
  if (sheet === 'make' && zeroAt !== null) {
    return <MakeSheet plan={plan} forecast={forecast} telling={{ say, write, zeroAt }} utcOffsetMin={utcOffsetMin(zeroAt)} name={plan.setup.pot.name} lotCode="" backHref="/paper/plan" />; // prettier-ignore
  }
  const at = (id: SheetId): Offered => ({ id, href: `/paper/plan/${id}` });
  return (
    <PaperTable
      title={say('paper:title')}
      under={say('paper:ofPlan', { name: plan.make.name, milk: write.litres(plan.setup.milk.volumeL).text })}
      offered={[at('ready'), at('make'), at('student'), at('run'), at('handOut'), { id: 'gauge', href: gaugeHref(plan) }]} // prettier-ignore
      chosen={sheet}
      sheets={sheets}
    />
  );
}
