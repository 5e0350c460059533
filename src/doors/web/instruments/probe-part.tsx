import { useState, type ReactNode } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { SelectField } from '../look/select-field.tsx';
import { bandText } from './file-view.ts';
import { liveView } from './live-view.ts';
import { useProbe } from './use-probe.ts';
import { BAUD_RATES, hasSerial } from './web-serial.ts';
import { hasBluetooth } from './web-bluetooth.ts';

/** A probe on this device: by wire or by radio, where the browser has it; plainly said where it has not. */
export function ProbePart({
  streamId,
  record,
  nowAt,
}: {
  readonly streamId: string;
  readonly record: BatchRecord;
  readonly nowAt: number;
}): ReactNode {
  const { say, write } = useReader();
  const { state, connect, leave } = useProbe(streamId);
  const [baudRate, setBaudRate] = useState<number>(BAUD_RATES[0]);
  const [bareUnit, setBareUnit] = useState<'C' | 'F'>('C');
  const byWire = hasSerial();
  const byRadio = hasBluetooth();
  const view = liveView({ state, streamId, nowAt, say, write });
  const isElsewhere = state.status !== 'none' && state.streamId !== streamId;
  return (
    <section className="instruments-part" aria-labelledby="instruments-probe">
      <h2 id="instruments-probe">{say('instruments:probe.title')}</h2>
      {byWire || byRadio ? (
        <p>{say('instruments:probe.how', { band: bandText(write) })}</p>
      ) : (
        <p className="instruments-none">{say('instruments:probe.none')}</p>
      )}
      {view === null ? null : (
        <div className="instruments-live">
          {view.value === null ? null : (
            <p>
              {view.name} <strong className="instruments-value numerals">{view.value}</strong>
              {view.at === null ? null : `, ${view.at}`} {view.noted}
            </p>
          )}
          <div role="status">
            {view.notes.map((text) => (
              <p key={text}>{text}</p>
            ))}
            {record.steps.length === 0 && view.value !== null ? <p>{say('instruments:probe.notBegun')}</p> : null}
          </div>
          <Button onClick={() => void leave()}>{say('instruments:live.leave')}</Button>
        </div>
      )}
      {isElsewhere ? <p>{say('instruments:probe.elsewhere')}</p> : null}
      {state.failed === 'open' ? (
        <p role="alert" className="instruments-problem">
          {say('instruments:probe.notOpened')}
        </p>
      ) : null}
      {byWire ? (
        <div className="instruments-wire">
          <SelectField
            label={say('instruments:probe.baud')}
            value={String(baudRate)}
            options={BAUD_RATES.map((rate) => ({ value: String(rate), label: String(rate) }))}
            onChange={(value) => setBaudRate(Number(value))}
          />
          <SelectField
            label={say('instruments:probe.bare')}
            value={bareUnit}
            options={[{ value: 'C' as const, label: '°C' }, { value: 'F' as const, label: '°F' }]} // prettier-ignore
            onChange={setBareUnit}
          />
          <Button kind="second" onClick={() => void connect({ kind: 'serial', baudRate, bareUnit })}>
            {say('instruments:probe.wire')}
          </Button>
        </div>
      ) : null}
      {byRadio ? (
        <div>
          <Button kind="second" onClick={() => void connect({ kind: 'bluetooth' })}>
            {say('instruments:probe.radio')}
          </Button>
        </div>
      ) : null}
      {byWire !== byRadio ? <p>{say(byWire ? 'instruments:probe.noRadio' : 'instruments:probe.noWire')}</p> : null}
    </section>
  );
}
