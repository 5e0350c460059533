import { useMemo, useState, type ReactNode } from 'react';
import { jobsOfAll } from '../../../exchange/ageing/care-feed.ts';
import { dayNumber, dayText } from '../../../record/day-number.ts';
import type { KeptThings } from '../../../record/kept-things.ts';
import { useReader } from '../device/reader.tsx';
import { May, useMay } from '../log/may.tsx';
import type { Note } from '../log/event-log.ts';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { DayField } from '../look/day-field.tsx';
import { awayView } from './away-view.ts';
import { localDayNumber, noonOf } from './use-kept.ts';

/** "Away from … to …": what moves to the eve and to the day after, and what cannot wait, before it is planned. */
export function AwayPart({
  kept,
  today,
  newStreamId,
  onNote,
}: {
  readonly kept: KeptThings;
  readonly today: number;
  readonly newStreamId: () => string;
  readonly onNote: (notes: readonly Omit<Note, 'kinds'>[], words: string) => void;
}): ReactNode {
  const { say, write } = useReader();
  const may = useMay();
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const [isOpen, setOpen] = useState(false);
  const span = { from: dayNumber(from), to: dayNumber(to) };
  const isWhole = Number.isFinite(span.from) && Number.isFinite(span.to);
  const isRight = isWhole && span.from >= today && span.to >= span.from;
  const preview = useMemo(
    () => (isRight ? awayView({ jobs: jobsOfAll({ kept, dayAt: localDayNumber, today, until: dayNumber(to) + 1, away: [{ from: dayNumber(from), to: dayNumber(to) }] }), kept, say, write }) : null), // prettier-ignore
    [isRight, from, to, kept, today, say, write],
  );
  const coming = kept.away.filter(({ to: last }) => dayNumber(last) >= today);
  return (
    <section className="away" aria-labelledby="away-title">
      <h2 id="away-title">{say('ageing:away.title')}</h2>
      {coming.map((away) => (
        <p key={away.eventId} className="away-kept">
          <span>
            {say('ageing:away.planned', { from: write.day(noonOf(away.from)), to: write.day(noonOf(away.to)) })}
          </span>
          {may.takeBack(away.streamId, [away.eventId]) ? (
            <Button
              onClick={() =>
                onNote(
                  [{ kind: 'retracted', streamId: away.streamId, body: { replaces: away.eventId } }],
                  say('ageing:away.staying'),
                )
              }
            >
              {say('ageing:away.stay')}
            </Button>
          ) : null}
        </p>
      ))}
      {isOpen ? null : (
        <May note="awayPlanned" tells>
          <Button onClick={() => setOpen(true)}>{say('ageing:away.open')}</Button>
        </May>
      )}
      {isOpen ? (
        <div className="away-form">
          <DayField label={say('ageing:away.from')} value={from} least={dayText(today)} onChange={setFrom} />
          <DayField
            label={say('ageing:away.to')}
            value={to}
            least={from === '' ? dayText(today) : from}
            onChange={setTo}
          />
          {isWhole && !isRight ? (
            <p className="away-wrong" role="alert">
              {say('ageing:away.wrong')}
            </p>
          ) : null}
          {preview === null ? null : (
            <div className="away-preview" aria-live="polite">
              {preview.cannotWait.length === 0 ? null : (
                <Notice kind="caution" title={say('ageing:away.cannotWait')}>
                  <ul>
                    {preview.cannotWait.map((line) => (
                      <li key={line}>{line}</li>
                    ))}
                  </ul>
                </Notice>
              )}
              <p>{preview.told}</p>
              <Button
                kind="main"
                onClick={() => {
                  onNote(
                    [{ kind: 'awayPlanned', streamId: newStreamId(), body: { from, to } }],
                    say('ageing:away.kept', { from: write.shortDate(noonOf(from)), to: write.shortDate(noonOf(to)) }),
                  );
                  setFrom('');
                  setTo('');
                  setOpen(false);
                }}
              >
                {say('ageing:away.plan')}
              </Button>
            </div>
          )}
        </div>
      ) : null}
    </section>
  );
}
