import { useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import type { AnyCalculator } from '../../../exchange/calc/registry.ts';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { useMay } from '../log/may.tsx';
import { useLog } from '../log/log-provider.tsx';
import { Card } from '../look/card.tsx';
import { Notice } from '../look/notice.tsx';
import { localDay } from '../plan/wall-clock.ts';
import { askSum } from './ask-sum.ts';
import { bottleLine } from '../lots/bottle-words.ts';
import { CupResult } from './cup-result.tsx';
import { CupRunning } from './cup-running.tsx';
import { CupSetup } from './cup-setup.tsx';
import { CUP_TREATMENTS, cupInput, cupMinutes, freshCup, phaseOf, testedBody, type CupTest } from './cup-test.ts';
import { fieldsOfSum } from '../../../exchange/told/field-shapes.ts';
import { exampleDraft, linkOf } from './sum-draft.ts';
import { useBottles } from '../lots/use-bottles.ts';
import { useCup } from './use-cup.ts';
import './cup.css';

/** How strong is this bottle, and does this milk make curd: a cup, measured rennet and a clock. */
export function CupScreen({ calculator }: { readonly calculator: AnyCalculator }): ReactNode {
  const { say, write } = useReader();
  const { log } = useLog();
  const now = useNow(500);
  const whyNot = useMay().whyNot('lotTested');
  const [failed, setFailed] = useState<string | null>(null);
  const bottleName = say('bench:cup.bottleDefault', { day: write.day(now) });
  const { cup, put } = useCup({ units: write.units, bottleName });
  const fields = useMemo(() => fieldsOfSum(calculator.name), [calculator]);
  const bottles = useBottles();
  const phase = phaseOf(cup);
  const { json } = cupInput({ cup, fields });

  const flecks = async (): Promise<void> => {
    const seen: CupTest = { ...cup, fleckedAt: Date.now() };
    // The time is kept before anything else is tried.
    put(seen);
    const minutes = cupMinutes({ cup: seen, now: Date.now() });
    const reply = askSum({ name: calculator.name, input: { ...json, flocculationMinutes: minutes } });
    const milk = say(`bench:cup.milks.${cup.milk}`);
    const body =
      'answer' in reply && json !== null
        ? testedBody({ json, minutes, milk, milkTreatment: CUP_TREATMENTS[cup.milk], result: reply.answer.result })
        : null;
    if (body === null || whyNot !== null) return;
    const isNew = !bottles.some((bottle) => bottle.lotId === cup.lotId);
    const streamId = isNew ? log.newStreamId('lot') : cup.lotId;
    const received = { kind: 'lotReceived', streamId, body: { lotKind: 'rennet', name: cup.bottleName.trim() || bottleName, form: 'liquid', receivedOn: localDay(Date.now()) } }; // prettier-ignore
    try {
      const events = await log.recordAll([...(isNew ? [received] : []), { kind: 'lotTested', streamId, body }]);
      put({ ...seen, lotId: streamId, eventIds: events.map((event) => event.id) });
      setFailed(null);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };

  const undo = async (): Promise<void> => {
    try {
      await log.recordAll([...cup.eventIds].reverse().map((replaces) => ({ kind: 'retracted', streamId: cup.lotId, body: { replaces } }))); // prettier-ignore
      put({ ...cup, eventIds: [], isUndone: true, lotId: cup.eventIds.length > 1 ? '' : cup.lotId });
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };

  const again = (): void => put({ ...freshCup({ units: write.units, bottleName }), texts: cup.texts, milk: cup.milk, lotId: cup.lotId, bottleName: cup.bottleName, potText: cup.potText }); // prettier-ignore

  return (
    <>
      <p className="bench-lead">{say('bench:cup.lead')}</p>
      {failed === null ? null : <Notice kind="act">{say('bench:cup.notKept', { why: failed })}</Notice>}
      {whyNot === null ? null : <Notice kind="note">{whyNot}</Notice>}
      <Card rim className="sum-card cup">
        {phase === 'setup' ? (
          <CupSetup cup={cup} fields={fields} bottles={bottles} put={put} />
        ) : phase === 'seen' ? (
          <CupResult cup={cup} json={json} bottles={bottles} put={put} onUndo={() => void undo()} onAgain={again} />
        ) : (
          <CupRunning
            cup={cup}
            json={json}
            now={now}
            onFlecks={() => void flecks()}
            onStop={() => put({ ...cup, stoppedAt: Date.now() })}
            onAgain={again}
          />
        )}
      </Card>
      <section className="cup-bottles" aria-labelledby="bottles">
        <h2 id="bottles">{say('bench:bottles.title')}</h2>
        {bottles.length === 0 ? (
          <p>{say('bench:bottles.none')}</p>
        ) : (
          <ul className="sum-lines">
            {bottles.map((bottle) => (
              <li key={bottle.lotId}>{bottleLine({ bottle, say, write })}</li>
            ))}
          </ul>
        )}
        <p className="sum-foot-row">
          <Link href="/bench/lots">{say('bench:lots')}</Link>
          <Link href="/bench/rennet">{say('bench:sums.rennet.title')}</Link>
          <Link
            href={`/bench/rennet-test?${linkOf(exampleDraft({ example: calculator.example, units: write.units }))}`}
          >
            {say('bench:cup.plainSum')}
          </Link>
        </p>
      </section>
    </>
  );
}
