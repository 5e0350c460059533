import { useMemo, type ReactNode } from 'react';
import { classRunSheet, type RunPot } from '../../../exchange/paper/class-run.ts';
import type { PaperSheet } from '../../../exchange/paper/element.ts';
import { getReadySheet } from '../../../exchange/paper/get-ready.ts';
import { studentSheet } from '../../../exchange/paper/student-sheet.ts';
import { dayEndStep } from '../../../forecast/day-end.ts';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { useBurners } from '../pots/use-burners.ts';
import { usePots } from '../pots/use-pots.ts';
import { usePotsView } from '../pots/use-pots-view.ts';
import { simulatedLength } from './length-of.ts';
import type { Offered, SheetId } from './offered.ts';
import { PaperTable } from './paper-table.tsx';
import { useTold } from './use-told.ts';

/** Often enough for a sheet of paper. */
const EVERY_MS = 120_000;

/** Paper of all pots that are made ready or under way. */
export function FromClass({ sheet }: { readonly sheet: SheetId | null }): ReactNode {
  const { say, write } = useReader();
  const nowAt = useNow(EVERY_MS);
  const { pots, isReady } = usePots(nowAt);
  const { burners } = useBurners();
  const view = usePotsView({ pots, burners, nowAt });
  const told = useTold({ isInBoth: false });
  const isForeseen = pots.length > 0 && pots.every(({ forecast }) => forecast !== null);
  const runPots = useMemo(
    () =>
      pots.flatMap(({ potId, batch, forecast }): RunPot[] => {
        if (forecast === null) return [];
        const { record, plan } = batch;
        return [{ potId, name: record.name, plan, forecast, zeroAt: record.zeroAt, lastStepId: dayEndStep({ steps: plan.steps, lengthMin: simulatedLength(forecast) }) }]; // prettier-ignore
      }),
    [pots],
  );
  const sheets = useMemo<readonly PaperSheet[] | null>(() => {
    if (!isForeseen) return null;
    switch (sheet) {
      case 'run':
        return [classRunSheet({ pots: runPots, burners, clashes: view.clashes.map(({ text }) => text), told })];
      case 'ready':
        return [getReadySheet({ pots: runPots, told })];
      case 'student':
        return pots.flatMap(({ batch: { record, plan } }, index) => studentSheet({ plan, pot: { name: record.name, lotCode: record.lotCode, day: write.date(record.zeroAt) }, lastStepId: runPots[index]?.lastStepId, told })); // prettier-ignore
      default:
        return [];
    }
  }, [sheet, isForeseen, runPots, pots, burners, view.clashes, told, write]);
  if (pots.length === 0) {
    return (
      <>
        <h1>{say('paper:title')}</h1>
        <p>{say(isReady ? 'paper:none.class' : 'vat:opening')}</p>
      </>
    );
  }
  const at = (id: SheetId): Offered => ({ id, href: `/paper/class/${id}` });
  const of = pots.find(({ batch }) => batch.record.together !== null)?.potId;
  const labels: readonly Offered[] = of === undefined ? [] : [{ id: 'labels', href: `/record/${of}/labels/class` }];
  return (
    <PaperTable
      title={say('paper:title')}
      under={say('paper:ofClass', { count: pots.length, names: pots.map(({ batch }) => batch.record.name).join(', ') })}
      offered={[at('run'), at('ready'), at('student'), ...labels]}
      chosen={sheet}
      sheets={sheets}
    />
  );
}
