import type { ReactNode } from 'react';
import { JUDGEMENT_GRADES, type JudgementName } from '../../../make/judgement.ts';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { Drawing } from './drawing.tsx';
import { DRAWINGS } from './drawings.ts';
import './judge.css';

/** What one answer leads to, in a line under its tile. */
export interface Outcome {
  readonly grade: string;
  readonly leadsTo: string;
}

/**
 * Judge by eye and hand: how to test in one line, a drawing for each grade, "not sure" last. A tap is the record;
 * what it leads to stands on the tile.
 */
export function JudgeScreen({
  judgement,
  outcomes,
  caution,
  onJudged,
  onBack,
}: {
  readonly judgement: JudgementName;
  readonly outcomes: readonly Outcome[];
  readonly caution: string | null;
  readonly onJudged: (grade: string) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  const drawn = DRAWINGS[judgement] ?? {};
  const leadsTo = (grade: string): string => outcomes.find((one) => one.grade === grade)?.leadsTo ?? '';
  return (
    <section className="judge" aria-labelledby="judge-title">
      <h1 id="judge-title" className="judge-title" tabIndex={-1}>
        {say(`vat:judge.${judgement}.title`)}
      </h1>
      <p className="judge-how">{say(`vat:judge.${judgement}.how`)}</p>
      {caution === null ? null : <p className="judge-caution">{caution}</p>}
      <div className="judge-tiles">
        {JUDGEMENT_GRADES[judgement].map((grade, index) => (
          <VatButton key={grade} className="judge-tile" keyHint={String(index + 1)} keeps onAct={() => onJudged(grade)}>
            {drawn[grade] === undefined ? null : <Drawing>{drawn[grade]}</Drawing>}
            <span className="judge-name">{say(`vat:judge.${judgement}.${grade}.name`)}</span>
            <span className="judge-cue">{say(`vat:judge.${judgement}.${grade}.cue`)}</span>
            <span className="judge-leads">{leadsTo(grade)}</span>
          </VatButton>
        ))}
        <VatButton className="judge-tile judge-unsure" keyHint="0" keeps onAct={() => onJudged('not-sure')}>
          <span className="judge-name">{say('vat:judge.notSure.name')}</span>
          <span className="judge-cue">{say('vat:judge.notSure.cue')}</span>
          <span className="judge-leads">{leadsTo('not-sure')}</span>
        </VatButton>
      </div>
      <VatButton className="vat-back" keyHint="Escape" onAct={onBack}>
        {say('vat:action.back')}
      </VatButton>
    </section>
  );
}
