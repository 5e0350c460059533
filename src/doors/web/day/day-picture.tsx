import { useMemo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Lanes, scaleRem } from '../timeline/lanes.tsx';
import { utcOffsetMin } from '../vat/utc-offset.ts';
import type { DayTold } from '../../../exchange/day-words.ts';
import { dayScales, type DayScale } from './day-view.ts';

/** Lanes that do not fit are scrolled to, with arrow keys too. */
const SCROLLED_BY_KEYS = 0;

const PX_PER_MIN = 1.7;

/** All pots and burners on one scale of time, the now-line across them while the day runs. */
export function DayPicture({ told, now }: { readonly told: DayTold; readonly now: number }): ReactNode {
  const { say, write } = useReader();
  const scales = useMemo(() => dayScales(told), [told]);
  if (scales.length === 0) return null;
  return (
    <section className="day-picture" aria-labelledby="day-picture-title">
      <h2 id="day-picture-title">{say('day:picture.title')}</h2>
      <p className="plan-note">{say('day:picture.how')}</p>
      {scales.map((scale) => (
        <div key={scale.frame.fromAt} className="day-part">
          {scales.length === 1 ? null : <h3>{write.day(scale.frame.fromAt)}</h3>}
          <OneScale scale={scale} potCount={told.plan.pots.length} now={now} />
        </div>
      ))}
    </section>
  );
}

function OneScale({
  scale,
  potCount,
  now,
}: {
  readonly scale: DayScale;
  readonly potCount: number;
  readonly now: number;
}): ReactNode {
  const { say, write } = useReader();
  const { lanes, frame } = scale;
  const isNow = now >= frame.fromAt && now <= frame.toAt;
  const left = scaleRem(write.clock(frame.fromAt));
  const kitCount = lanes.length - potCount;
  // Burners need less room than pots: their holds have one word each.
  const widths = `repeat(${potCount}, minmax(0, 3fr))${kitCount === 0 ? '' : ` repeat(${kitCount}, minmax(4.25rem, 1fr))`}`;
  return (
    <section
      className="day-scroll"
      tabIndex={SCROLLED_BY_KEYS}
      aria-label={say('day:picture.summary', { count: potCount })}
    >
      <div style={{ minWidth: `${left + potCount * 4.5 + kitCount * 4.25}rem` }}>
        <div className="day-heads" aria-hidden="true" style={{ gridTemplateColumns: `${left}rem ${widths}` }}>
          <span />
          {lanes.map(({ id, name }) => (
            <strong key={id}>{name}</strong>
          ))}
        </div>
        <Lanes
          lanes={lanes}
          frame={frame}
          nowAt={isNow ? now : null}
          utcOffsetMin={utcOffsetMin(frame.fromAt)}
          pxPerMin={PX_PER_MIN}
          clockText={write.clock}
          summary={say('day:picture.summary', { count: potCount })}
          widths={widths}
        />
      </div>
    </section>
  );
}
