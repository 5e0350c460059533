import { useState, type ReactNode } from 'react';
import { parseTyped } from '../../../make/quantity.ts';
import { Button } from '../look/button.tsx';
import { NumberField } from '../look/number-field.tsx';
import { useReader } from '../device/reader.tsx';
import { May, useMay } from '../log/may.tsx';
import { isKept } from '../log/not-kept.ts';
import { useLog } from '../log/log-provider.tsx';
import type { Telling } from '../vat/said.ts';
import { valueText, withNumber, type RecordLine } from './record-lines.ts';

/** Everything that happened, in time order; what was set right stays, struck through. */
export function RecordTable({
  lines,
  streamId,
  telling,
  unknown,
}: {
  readonly lines: readonly RecordLine[];
  readonly streamId: string;
  readonly telling: Telling;
  /** Events of a newer version, kept but not told. */
  readonly unknown: number;
}): ReactNode {
  const { say } = useReader();
  const may = useMay();
  const [openId, setOpenId] = useState<string | null>(null);
  const [isSettingRight, setSettingRight] = useState(false);
  return (
    <section className="record-events" aria-labelledby="record-events">
      <div className="record-events-head">
        <h2 id="record-events">{say('record:events')}</h2>
        <May note="answered" of={streamId}>
          <Button
            kind="quiet"
            className="no-print"
            aria-pressed={isSettingRight}
            onClick={() => {
              setSettingRight(!isSettingRight);
              setOpenId(null);
            }}
          >
            {say(isSettingRight ? 'record:setRightDone' : 'record:setRightAny')}
          </Button>
        </May>
      </div>
      <ol className="record-lines">
        {lines.map((line) => (
          <li key={line.eventId} className="record-line" data-kind={line.kind} data-retracted={line.retracted !== null}>
            <time className="numerals">{line.clock}</time>
            <div className="record-what">
              {line.was.map((earlier) => (
                <p key={`${earlier.what}-${earlier.clock}`} className="record-was">
                  <s>
                    {earlier.clock === line.clock ? '' : `${earlier.clock} `}
                    {earlier.what}
                  </s>{' '}
                  <span>{earlier.note}</span>
                </p>
              ))}
              <p>
                {line.retracted === null ? line.what : <s>{line.what}</s>} {line.retracted}
                {line.person === '' ? null : <span className="record-person"> {line.person}</span>}
              </p>
              {openId === line.eventId ? (
                <SetRight line={line} streamId={streamId} telling={telling} onDone={() => setOpenId(null)} />
              ) : null}
            </div>
            {!isSettingRight ||
            line.retracted !== null ||
            openId === line.eventId ||
            line.kind === 'batchOpened' ||
            !may.takeBack(streamId, [line.eventId]) ? null : (
              <Button
                kind="quiet"
                className="no-print"
                aria-label={say('record:setRightOf', { what: line.what })}
                onClick={() => setOpenId(line.eventId)}
              >
                {say('record:setRight')}
              </Button>
            )}
          </li>
        ))}
      </ol>
      {unknown === 0 ? null : <p>{say('record:newer', { count: unknown })}</p>}
    </section>
  );
}

/** Sets a number or a time right, with a reason, or takes the entry back; nothing is ever wiped out. */
function SetRight({
  line,
  streamId,
  telling,
  onDone,
}: {
  readonly line: RecordLine;
  readonly streamId: string;
  readonly telling: Telling;
  readonly onDone: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const { log } = useLog();
  const [typed, setTyped] = useState(line.number === null ? '' : plainNumber(line.number));
  const [clock, setClock] = useState(localClock(line.at));
  const [because, setBecause] = useState('');
  const [error, setError] = useState<string | undefined>();
  const unit = line.number === null ? '' : (valueText({ telling, ...line.number }).split('\u202F')[1] ?? '');

  function plainNumber(number: NonNullable<RecordLine['number']>): string {
    return valueText({ telling, ...number }).split('\u202F')[0] ?? '';
  }
  const keep = async (): Promise<void> => {
    let { body } = line;
    if (line.number !== null) {
      const point = typed.includes('.') || typed.includes(',') ? typed : `${typed}.0`;
      const parsed = parseTyped({ quantity: line.number.quantity, keys: point, units: write.units });
      if (parsed.verdict === 'refused') {
        setError(say('record:impossible', { value: typed, expected: parsed.problem.expected }));
        return;
      }
      body = withNumber(line, unit === 'g' ? parsed.value / 1000 : parsed.value);
    }
    if (await isKept(log.record({ kind: 'corrected', streamId, happenedAt: atClock(line.at, clock), body: { replaces: line.eventId, kind: line.kind, body, ...(because === '' ? {} : { because }) } }))) onDone(); // prettier-ignore
  };
  const takeBack = async (): Promise<void> => {
    if (await isKept(log.record({ kind: 'retracted', streamId, body: { replaces: line.eventId } }))) onDone();
  };
  return (
    <form
      className="record-set no-print"
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      {line.number === null ? null : (
        <NumberField label={say('record:value')} value={typed} unit={unit} onChange={setTyped} error={error} />
      )}
      <label className="record-field">
        <span>{say('record:time')}</span>
        <input type="time" value={clock} onChange={(event) => setClock(event.target.value)} />
      </label>
      <label className="record-field record-because">
        <span>{say('record:because')}</span>
        <input value={because} onChange={(event) => setBecause(event.target.value)} />
      </label>
      <div className="record-set-acts">
        <Button kind="main" type="submit">
          {say('record:keep')}
        </Button>
        <Button onClick={() => void takeBack()}>{say('record:takeBack')}</Button>
        <Button kind="quiet" onClick={onDone}>
          {say('record:leave')}
        </Button>
      </div>
    </form>
  );
}

const two = (value: number): string => String(value).padStart(2, '0');

function localClock(at: number): string {
  const local = new Date(at);
  return `${two(local.getHours())}:${two(local.getMinutes())}`;
}

/** The same day at another clock time; the seconds stay while the minute does. */
function atClock(at: number, clock: string): number {
  if (clock === localClock(at)) return at;
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  return new Date(at).setHours(hours, minutes, 0, 0);
}
