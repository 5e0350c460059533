import { useMemo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Lanes } from '../timeline/lanes.tsx';
import { utcOffsetMin } from '../vat/utc-offset.ts';
import { dayLanes, type DayTold } from './day-view.ts';

const PX_PER_MIN = 1.7;

/** All pots and burners on one scale of time, the now-line across them while the day runs. */
export function DayPicture({ told, now }: { readonly told: DayTold; readonly now: number }): ReactNode {
  const { say, write } = useReader();
  const { lanes, frame } = useMemo(() => dayLanes(told), [told]);
  if (lanes.length === 0) return null;
  const isNow = now >= frame.fromAt && now <= frame.toAt;
  return (
    <section className="day-picture" aria-labelledby="day-picture-title">
      <h2 id="day-picture-title">{say('day:picture.title')}</h2>
      <p className="plan-note">{say('day:picture.how')}</p>
      <div className="day-scroll" tabIndex={0} role="group" aria-labelledby="day-picture-title">
        <div style={{ minWidth: `${3.875 + lanes.length * 4}rem` }}>
          <div className="lane-heads" aria-hidden="true" style={{ gridTemplateColumns: `3.875rem repeat(${lanes.length}, minmax(0, 1fr))` }}>
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
            summary={say('day:picture.summary', { count: told.pots.length })}
          />
        </div>
      </div>
    </section>
  );
} // prettier-ignore
