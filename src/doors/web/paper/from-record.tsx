import { useMemo, useState, type ReactNode } from 'react';
import { takeHomeSheet, type LabelWords } from '../../../exchange/paper/take-home.ts';
import type { PaperSheet } from '../../../exchange/paper/element.ts';
import { handOutSheet } from '../../../exchange/paper/hand-out.ts';
import { inspectorSheet } from '../../../exchange/paper/inspector-record.ts';
import { studentSheet } from '../../../exchange/paper/student-sheet.ts';
import type { Told } from '../../../exchange/paper/step-words.ts';
import { fileName } from '../../../exchange/share/make-file.ts';
import { questionAddress } from '../../../exchange/share/question-link.ts';
import { recordCsv } from '../../../exchange/share/record-csv.ts';
import { bothUnits } from '../../../exchange/text/both-units.ts';
import { openWriter } from '../../../exchange/written.ts';
import { dayEndStep } from '../../../forecast/day-end.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { firstChoices, labelView } from '../labels/label-view.ts';
import { Button } from '../look/button.tsx';
import { saveFile } from '../share/save-file.ts';
import { useLots } from '../lots/use-lots.ts';
import { isBundled } from '../makes/make-shelf.ts';
import { gaugeHref } from '../print/gauge-view.ts';
import { recordLines } from '../record/record-lines.ts';
import { useReplays, type Asked } from '../record/replays.ts';
import type { Batch } from '../vat/batch.ts';
import type { Telling } from '../vat/said.ts';
import { useBatch } from '../vat/use-batch.ts';
import { simulatedLength } from './length-of.ts';
import type { Offered, SheetId } from './offered.ts';
import { PaperTable } from './paper-table.tsx';
import { homeMilkOf, keepPupils, keptPupils, weightOf, type Pupil } from './pupils.ts';
import { PupilsForm } from './pupils-form.tsx';
import { useTold } from './use-told.ts';

const MINUTE_MS = 60_000;
/** A pot is filled to four fifths: common practice (no source). */
const POT_PER_MILK = 1.25;
const OPENING: readonly Asked[] = [{ key: 'opening', history: NO_HISTORY }];

/** Paper of one batch. */
export function FromRecord({
  batchId,
  sheet,
}: {
  readonly batchId: string;
  readonly sheet: SheetId | null;
}): ReactNode {
  const { say } = useReader();
  const batch = useBatch(batchId);
  if (batch.state === 'opening') return <p>{say('vat:opening')}</p>;
  if (batch.state === 'open') return <OfBatch batch={batch} sheet={sheet} />;
  return (
    <>
      <h1>{say(batch.state === 'missing' ? 'vat:missing.title' : 'vat:unreadable.title')}</h1>
      <p>{say(batch.state === 'missing' ? 'vat:missing.remedy' : 'vat:unreadable.remedy')}</p>
    </>
  );
}

function OfBatch({
  batch,
  sheet,
}: {
  readonly batch: Extract<Batch, { state: 'open' }>;
  readonly sheet: SheetId | null;
}): ReactNode {
  const { say, write, language } = useReader();
  const { record, plan, seed, streamId } = batch;
  const printedAt = useNow(MINUTE_MS);
  const lots = useLots();
  const [pupils, setPupils] = useState(() => keptPupils(streamId, write.units));
  const replays = useReplays(plan, seed, OPENING);
  const forecast = replays.get('opening') ?? null;
  const told = useTold({ isInBoth: false });
  const inBoth = useTold({ isInBoth: true });
  const telling = useMemo<Telling>(() => ({ say, write, zeroAt: record.zeroAt }), [say, write, record.zeroAt]);
  const label: LabelWords = useMemo(() => labelView({ record, plan, choices: firstChoices({ record, plan }), telling }), [record, plan, telling]); // prettier-ignore
  const sheets = useMemo<readonly PaperSheet[] | null>(() => {
    const toldTo = ({ units }: Pupil): Told => ({ say, write: openWriter({ language, units }), both: bothUnits(units, language), isInBoth: true });
    switch (sheet) {
      case 'student':
        if (forecast === null) return null;
        return [studentSheet({ plan, pot: { name: record.name, lotCode: record.lotCode, day: write.date(record.zeroAt) }, lastStepId: dayEndStep({ steps: plan.steps, lengthMin: simulatedLength(forecast) }), told })];
      case 'home':
        return pupils.pupils.map((pupil) => takeHomeSheet({ plan, label, piece: pieceOf(pupil, pupils.leftColdAt), told: toldTo(pupil) }));
      case 'inspector': {
        if (forecast === null) return null;
        const plannedAt = new Map(forecast.steps.flatMap(({ stepId, startMin }) => (Number.isFinite(startMin.p50) ? [[stepId, record.zeroAt + startMin.p50 * MINUTE_MS] as const] : [])));
        const lotNames = new Map(lots.map(({ lot }) => [lot.lotId, lot.name]));
        return [inspectorSheet({ record, plan, lines: recordLines({ record, plan, telling }), plannedAt, lotNames, printedAt, told })];
      }
      case 'handOut':
        return forecast === null ? null : [handOutSheet({ plan, forecast, notes: { batchCode: record.lotCode }, told: inBoth })];
      default:
        return [];
    }
    function pieceOf(pupil: Pupil, leftColdAt: string) {
      const weightG = weightOf(pupil.weightG);
      const milkL = homeMilkOf(pupil);
      const homeMilkL = milkL === null || Number.isNaN(milkL) ? null : milkL;
      const volumeL = homeMilkL ?? plan.setup.milk.volumeL;
      const { species, treatment } = plan.setup.milk;
      // The pot at home, not the class's: bottles, packets and burner of here mean nothing there.
      const answers = { milk: { volumeL: Math.round(volumeL * 100) / 100, species, treatment }, pot: { volumeL: Math.ceil(volumeL * POT_PER_MILK * 2) / 2 }, units: pupil.units };
      const address = isBundled(plan.make.id) ? questionAddress({ base: location.origin, question: { makeId: plan.make.id, answers } }) : null;
      return { pupil: pupil.name.trim() === '' ? null : pupil.name.trim(), weightG: weightG === null || Number.isNaN(weightG) ? null : weightG, leftColdAt: leftColdAt === '' ? null : leftColdAt, homeMilkL, address };
    }
  }, [sheet, plan, record, forecast, pupils, label, telling, lots, printedAt, told, inBoth, say, write, language]); // prettier-ignore
  const at = (id: SheetId): Offered => ({ id, href: `/paper/${streamId}/${id}` });
  return (
    <PaperTable
      title={say('paper:title')}
      under={say('paper:ofBatch', { name: plan.make.name, pot: record.name, day: write.date(record.zeroAt) })}
      offered={[
        at('home'),
        { id: 'labels', href: `/record/${streamId}/labels` },
        at('student'),
        { id: 'make', href: `/record/${streamId}?sheet=make` },
        at('inspector'),
        at('handOut'),
        { id: 'gauge', href: gaugeHref(plan) },
      ]}
      chosen={sheet}
      sheets={sheets}
      form={
        sheet === 'home' ? (
          <PupilsForm
            pupils={pupils}
            onChange={(next) => {
              keepPupils(streamId, next);
              setPupils(next);
            }}
          />
        ) : sheet === 'inspector' ? (
          <p className="paper-acts">
            <Button
              onClick={() =>
                saveFile({
                  name: `${fileName(record.lotCode, 'record')}.csv`,
                  type: 'text/csv',
                  text: `\uFEFF${recordCsv(record)}`,
                })
              }
            >
              {say('paper:table')}
            </Button>
          </p>
        ) : undefined
      }
    />
  );
}
