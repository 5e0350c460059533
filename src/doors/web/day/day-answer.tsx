import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import type { DayWay } from '../../../forecast/day/day.ts';
import { findingTexts, wayText, type DayTold } from '../../../exchange/day-words.ts';

/** Nobody is done at 17:42: the end is told to five minutes, outward. */
const toFive = (minutes: number): number => Math.ceil(minutes / 5) * 5;

/** When to begin and when it is over, how good that is, and what does not fit, with ways to take. */
export function DayAnswer({
  told,
  isCurrent,
  onWay,
}: {
  readonly told: DayTold;
  readonly isCurrent: boolean;
  readonly onWay: (way: DayWay) => void;
}): ReactNode {
  const { say, write } = useReader();
  const { plan, zeroAt } = told;
  const clock = (minutes: number): string => write.clock(zeroAt + minutes * 60_000);
  const day = (minutes: number): string => write.day(zeroAt + minutes * 60_000);
  const isOneDay = day(plan.startMin) === day(plan.endMin);
  const findings = findingTexts(told);
  const handsMin = plan.holds.filter(({ resource }) => resource === 'hands').reduce((sum, { fromMin, toMin }) => sum + toMin - fromMin, 0); // prettier-ignore
  return (
    <Card className="day-answer" aria-live="polite">
      {plan.pots.length === 0 ? null : (
        <>
          <p className="day-answer-label">
            {write.day(zeroAt + plan.startMin * 60_000)}. {say('day:answer.label')}
          </p>
          <p className="day-answer-span numerals">
            {isOneDay
              ? say('day:answer.span', { start: clock(plan.startMin), end: clock(toFive(plan.endMin)) })
              : say('day:answer.spanDays', { start: clock(plan.startMin), end: clock(toFive(plan.endMin)), day: day(plan.endMin) })}
          </p>
          <p className="plan-note">
            {say('day:answer.work', { hands: write.duration(handsMin), total: write.duration(plan.endMin - plan.startMin) })}{' '}
            {plan.isProven ? say('day:answer.proven') : say('day:answer.near', { bound: clock(plan.boundMin) })}{' '}
            {isCurrent ? null : say('day:planning')}
          </p>
        </>
      )}
      {findings.length === 0 ? null : (
        <div className="day-trouble">
          <h2>{say(plan.ways.length > 0 || plan.pots.length === 0 ? 'day:trouble.title' : 'day:trouble.notes')}</h2>
          <ul>
            {findings.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
          {plan.ways.length === 0 ? null : (
            <>
              <h3 className="no-print">{say('day:trouble.ways')}</h3>
              <ul className="day-ways no-print">
                {plan.ways.map((way) => (
                  <li key={way.code}>
                    <Button kind="second" onClick={() => onWay(way)}>
                      {wayText(way, told)}
                    </Button>
                  </li>
                ))}
              </ul>
            </>
          )}
        </div>
      )}
    </Card>
  );
} // prettier-ignore
