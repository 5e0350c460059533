import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import type { Make } from '../../../make/make.ts';
import './makes-choice.css';

/** One make as a choice, with what it asks of the day. */
export interface MakeOption {
  readonly make: Make;
  readonly totalMin: number | null;
  readonly handsMin: number | null;
  /** Why it does not fit this milk; null where it does. */
  readonly stops: string | null;
}

/** The make on the table and those most like it, side by side, each with its hours and its skill; the others a link away. */
export function MakesChoice({
  options,
  chosen,
  onChoose,
}: {
  readonly options: readonly MakeOption[];
  readonly chosen: string;
  readonly onChoose: (makeId: string) => void;
}): ReactNode {
  const { say } = useReader();
  return (
    <fieldset className="makes-choice">
      <legend>{say('plan:makes.choose')}</legend>
      <div className="makes-choice-row">
        {options.map((option) => (
          <label key={option.make.id} className="makes-choice-item">
            <input
              type="radio"
              name="make"
              checked={option.make.id === chosen}
              onChange={() => onChoose(option.make.id)}
            />
            <span className="makes-choice-body">
              <strong className="makes-choice-name">{option.make.name}</strong>
              <span>{option.make.about}</span>
              <Facts option={option} />
              {option.stops === null ? null : <span className="makes-choice-stops">{option.stops}</span>}
            </span>
          </label>
        ))}
      </div>
      <p className="makes-choice-all">
        <Link href="/makes">{say('makes:all')}</Link>
      </p>
    </fieldset>
  );
}

function Facts({ option }: { readonly option: MakeOption }): ReactNode {
  const { say, write } = useReader();
  const hands = option.handsMin === null ? null : write.duration(option.handsMin);
  const total = option.totalMin === null ? null : write.duration(option.totalMin);
  const facts = [
    hands === null
      ? null
      : total === null
        ? say('plan:makes.hands', { hands })
        : say('plan:makes.hours', { total, hands }),
    say('plan:makes.skill', { difficulty: option.make.difficulty }),
    say('plan:makes.keeps', { count: option.make.shelfLife.days.value }),
  ].filter((fact) => fact !== null);
  return <span className="makes-choice-facts">{facts.join(' · ')}</span>;
}
