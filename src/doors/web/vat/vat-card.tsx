import { memo, type ReactNode } from 'react';
import { Card } from '../look/card.tsx';
import { Quantity } from '../look/quantity.tsx';
import { useMedia } from '../look/use-media.ts';
import { useReader } from '../device/reader.tsx';
import { Caution } from './caution.tsx';
import { CourseBarDrawing } from './course-bar.tsx';
import { ReadinessLines } from './readiness-lines.tsx';
import type { VatView } from './vat-view.ts';
import { VatButton } from './vat-button.tsx';
import './vat-card.css';

/** Off the course by enough that something may be done about it. */
const DEPARTS: ReadonlySet<string> = new Set(['early', 'late', 'off']);

/** As narrow as a phone. */
export const NARROW = '(max-width: 40rem)';

interface CardProps {
  readonly view: VatView;
  /** Why nothing is foreseen any more. */
  readonly failed: string | null;
  readonly onTest: (() => void) | null;
  readonly onChoices: () => void;
  /** What the bell calls for; an Act takes the place of the numbers. */
  readonly calls: ReactNode;
  readonly isAct: boolean;
}

/** The card: what to do, how, by which numbers, until when, and whether the make is on course. Nothing else has the rim. */
export function VatCard({
  isStale,
  ...told
}: CardProps & {
  /** What is foreseen answers an older record; said on the rim, where it moves nothing. */
  readonly isStale: boolean;
}): ReactNode {
  const { say } = useReader();
  return (
    <Card rim className={told.isAct ? 'vat-card has-act' : 'vat-card'} aria-labelledby="vat-verb">
      <Told {...told} />
      <div className="vat-on-rim">{isStale ? <p className="vat-stale">{say('vat:stale')}</p> : null}</div>
    </Card>
  );
}

/** All that the card says of the make: drawn anew only when it says something else. */
const Told = memo(function Told({ view, failed, onTest, onChoices, calls, isAct }: CardProps): ReactNode {
  const { say } = useReader();
  // On a phone what comes next must stand above the fold; the details follow it there.
  const isNarrow = useMedia(NARROW);
  const departs = view.standing.stage === 'running' && DEPARTS.has(view.course.form);
  return (
    <>
      <h1 id="vat-verb" className="vat-verb">
        {view.verb}
      </h1>
      <p className="vat-manner">{view.manner}</p>
      {calls}
      {isAct || view.numbers.length === 0 ? null : (
        <dl className="vat-numbers" data-count={view.numbers.length}>
          {view.numbers.map((number) => (
            <div key={number.label} className="vat-number">
              <dt>{number.label}</dt>
              <dd>
                <Quantity written={number.written} size="key" />
              </dd>
            </div>
          ))}
        </dl>
      )}
      {view.numbers.map(({ label, kitchen }) =>
        kitchen === null ? null : (
          <p key={label} className="vat-kitchen">
            {kitchen}
          </p>
        ),
      )}
      {view.cautions.map((caution) => (
        <Caution key={caution} text={caution} />
      ))}
      {view.facts.map((fact) => (
        <p key={fact} className="vat-fact">
          {fact}
        </p>
      ))}
      {view.until === null ? null : (
        <p className="vat-until">
          <strong>{view.until}</strong> {view.expect}
        </p>
      )}
      {view.standing.stage !== 'running' ? null : (
        <div className="vat-course" role="status">
          {view.course.bar === null ? null : <CourseBarDrawing bar={view.course.bar} />}
          <p>
            <strong>{view.course.text}</strong> {view.course.because} {view.course.bar?.text} {failed}
          </p>
        </div>
      )}
      {!isNarrow || view.coming.text === null ? null : (
        <p className="vat-next">
          <strong>{say('vat:then.label')}</strong> {view.coming.text}
        </p>
      )}
      {onTest === null && !departs ? null : (
        <div className="vat-moves">
          {onTest === null ? null : (
            <VatButton className="vat-test" keyHint="T" onAct={onTest}>
              {say('vat:look.test')}
            </VatButton>
          )}
          {departs ? (
            <VatButton className="vat-choices" keyHint="C" onAct={onChoices}>
              {say('advice:course.seeChoices')}
            </VatButton>
          ) : null}
        </div>
      )}
      {isNarrow ? null : <ReadinessLines view={view} />}
    </>
  );
});
