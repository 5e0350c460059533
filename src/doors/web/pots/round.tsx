import { useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import { PadScreen, type PadReading } from '../pad/pad-screen.tsx';
import { valueText } from '../record/record-lines.ts';
import type { Event } from '../../../record/event.ts';
import { standingOf } from '../vat/current-step.ts';
import { entriesOf } from '../vat/reading-entries.ts';
import { VatButton } from '../vat/vat-button.tsx';
import { NotedList, type NotedRow } from './noted-list.tsx';
import { tellingOf } from './pot-seen.ts';
import type { Pot } from './use-pots.ts';

interface Read extends NotedRow {
  readonly events: readonly Event[];
}

/** One thermometer, or one meter, carried from pot to pot: two taps each, and the next pot's pad opens by itself. */
export function Round({
  pots: all,
  quantity,
  nowAt,
  onBack,
}: {
  readonly pots: readonly Pot[];
  readonly quantity: 'temperatureC' | 'pH';
  readonly nowAt: number;
  readonly onBack: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const { log } = useLog();
  // The walk keeps its order, whatever happens to the pots meanwhile.
  const [ids] = useState(() => all.map(({ potId }) => potId));
  const [reads, setReads] = useState<readonly Read[]>([]);
  const [isOver, setOver] = useState(false);
  const [failed, setFailed] = useState<string | null>(null);
  const place = reads.length;
  const pot = all.find(({ potId }) => potId === ids[place]);
  if (isOver || pot === undefined) {
    const takeBack = async (): Promise<void> => {
      await log.recordAll(reads.flatMap(({ events }) => events.map(({ id, streamId }) => ({ kind: 'retracted', streamId, body: { replaces: id } })).reverse())); // prettier-ignore
      setReads(reads.map((read) => ({ ...read, at: null, events: [] })));
    };
    const hasRead = reads.some(({ events }) => events.length > 0);
    return (
      <main className="vat vat-page pots-page">
        <h1>{say('pots:round.listTitle')}</h1>
        <NotedList rows={reads} onTime={null} />
        {failed === null ? null : (
          <p role="alert">
            {say('vat:strip.notSaved')}: {failed}
          </p>
        )}
        <div className="pots-ends">
          {hasRead ? (
            <VatButton
              className="vat-second"
              keyHint="U"
              onAct={() => void takeBack().catch((error: unknown) => setFailed(String(error)))}
            >
              {say('pots:all.undo')}
            </VatButton>
          ) : null}
          <VatButton className="vat-main" keyHint="Enter" onAct={onBack}>
            {say('pots:all.done')}
          </VatButton>
        </div>
      </main>
    );
  }
  const { record, plan } = pot.batch;
  const telling = tellingOf({ nowAt, say, write }, { record });
  const { step } = standingOf({ record, plan });
  const onReading = async (reading: PadReading): Promise<void> => {
    const at = nowAt - reading.minutesAgo * 60_000;
    try {
      const entries = entriesOf({ reading, step, record });
      const events = await log.recordAll(entries.map((entry) => ({ streamId: pot.potId, happenedAt: at, ...entry })));
      const kept = entries.find(({ kind }) => kind === 'reading');
      const value = kept?.kind === 'reading' ? kept.body.value : reading.value;
      setFailed(null);
      setReads([
        ...reads,
        { potId: pot.potId, name: record.name, at, what: valueText({ telling, quantity, value }), events },
      ]);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  const skip = (): void => setReads([...reads, { potId: pot.potId, name: record.name, at: null, events: [] }]);
  return (
    <main className="vat vat-page">
      {failed === null ? null : (
        <p role="alert">
          {say('vat:strip.notSaved')}: {failed}
        </p>
      )}
      <PadScreen
        key={pot.potId}
        step={step}
        plan={plan}
        forecast={pot.forecast}
        nowMin={(nowAt - telling.zeroAt) / 60_000}
        only={quantity}
        title={say('pots:round.title', { pot: record.name, nth: place + 1, of: ids.length })}
        onReading={(reading) => void onReading(reading)}
        onBack={() => (place === 0 ? onBack() : setOver(true))}
        backSays={say('pots:round.end')}
      />
      <div className="pots-round-acts">
        <VatButton className="vat-lesser" keyHint="S" onAct={skip}>
          {say('pots:round.skip', { pot: record.name })}
        </VatButton>
      </div>
    </main>
  );
}
