import { useId, type ReactNode } from 'react';
import { AGEING_PLACES, SKILLS } from '../../../make/choosing.ts';
import type { Problem } from '../../../numbers/validity.ts';
import { useReader } from '../device/reader.tsx';
import { SelectField } from '../look/select-field.tsx';
import { CARTONS, cartonOf, withCarton } from '../plan/cartons.ts';
import { withFact, type Draft } from '../plan/draft.ts';
import { factOf, type FactPath } from '../plan/draft-fields.ts';
import { FactField } from '../plan/fact-field.tsx';
import { problemsAt } from '../plan/problem-text.ts';
import { localDay } from '../plan/wall-clock.ts';
import { BURNERS, freeMinutes, WITHIN, type Wish } from './wish.ts';
import '../plan/sentence.css';

const DAY_MS = 86_400_000;
const DAYS_AHEAD = 8;
const ANIMALS = ['cow', 'goat', 'sheep', 'buffalo'] as const;
const IN_THE_POT = [...ANIMALS, 'whey'] as const;
const HOMOGENISED = ['unsaid', 'no', 'yes'] as const;
const METER = ['no', 'yes'] as const;

/** What is there, in a sentence that is itself the form: milk, pot, hours; then stove, meter, hands, a place to age it. */
export function HaveSentence({
  draft,
  wish,
  problems,
  now,
  onDraft,
  onWish,
}: {
  readonly draft: Draft;
  readonly wish: Wish;
  readonly problems: readonly Problem[];
  readonly now: number;
  readonly onDraft: (draft: Draft) => void;
  readonly onWish: (wish: Wish) => void;
}): ReactNode {
  const { say, write } = useReader();
  const words = (key: string, values?: Record<string, string | number>): string => say(`makes:have.${key}`, values);
  const number = (path: FactPath, label: string): ReactNode => (
    <FactField
      path={path}
      fact={factOf(path)}
      text={draft.facts[path] ?? ''}
      label={label}
      hideLabel
      error={problemsAt({ path, problems, draft, units: write.units, say })}
      onChange={(text) => onDraft(withFact(draft, path, text))}
    />
  );
  const species = ANIMALS.find((one) => one === draft.facts['milk.species']) ?? 'cow';
  const free = freeMinutes(wish);
  return (
    <div className="sentence" role="group" aria-label={words('label')}>
      <p className="sentence-line">
        <span>{words('lead')}</span> {number('milk.volumeL', words('fields.volume'))} <span>{words('of')}</span>{' '}
        <SelectField
          label={words('fields.animal')}
          hideLabel
          value={wish.fill === 'whey' ? 'whey' : species}
          options={IN_THE_POT.map((value) => ({ value, label: words(`animals.${value}`) }))}
          onChange={(value) => {
            onWish({ ...wish, fill: value === 'whey' ? 'whey' : 'milk' });
            if (value !== 'whey') onDraft(withFact(draft, 'milk.species', value));
          }}
        />{' '}
        {wish.fill === 'whey' ? null : <Carton draft={draft} onDraft={onDraft} />}
        <span>{words('pot')}</span> {number('pot.volumeL', words('fields.pot'))} <span>{words('potEnd')}</span>
      </p>
      <p className="sentence-line">
        <span>{words('free')}</span> <DayField wish={wish} now={now} label={words('fields.day')} onWish={onWish} />{' '}
        <span>{words('from')}</span>{' '}
        <TimeField label={words('fields.from')} value={wish.from} onChange={(from) => onWish({ ...wish, from })} />{' '}
        <span>{words('to')}</span>{' '}
        <TimeField label={words('fields.to')} value={wish.to} onChange={(to) => onWish({ ...wish, to })} />
        <span>{free === null ? words('end') : words('hours', { time: write.duration(free) })}</span>
      </p>
      <p className="sentence-line">
        <span>{words('with')}</span>{' '}
        <SelectField
          label={words('fields.burners')}
          hideLabel
          value={wish.burners}
          options={BURNERS.map((value) => ({ value, label: words(`burners.${value}`) }))}
          onChange={(burners) => onWish({ ...wish, burners })}
        />
        <span>,</span>{' '}
        <SelectField
          label={words('fields.meter')}
          hideLabel
          value={METER.find((one) => one === draft.facts['instruments.pHMeter']) ?? 'no'}
          options={METER.map((value) => ({ value, label: words(`meter.${value}`) }))}
          onChange={(value) => onDraft(withFact(draft, 'instruments.pHMeter', value))}
        />{' '}
        <span>{words('and')}</span>{' '}
        <SelectField
          label={words('fields.ageing')}
          hideLabel
          value={wish.ageing}
          options={AGEING_PLACES.map((value) => ({ value, label: words(`ageing.${value}`) }))}
          onChange={(ageing) => onWish({ ...wish, ageing })}
        />
        <span>{words('skillLead')}</span>{' '}
        <SelectField
          label={words('fields.skill')}
          hideLabel
          value={wish.skill}
          options={SKILLS.map((value) => ({ value, label: words(`skill.${value}`) }))}
          onChange={(skill) => onWish({ ...wish, skill })}
        />{' '}
        <span>{words('withinLead')}</span>{' '}
        <SelectField
          label={words('fields.within')}
          hideLabel
          value={wish.within}
          options={WITHIN.map((value) => ({ value, label: words(`within.${value}`) }))}
          onChange={(within) => onWish({ ...wish, within })}
        />
        <span>{words('end')}</span>
      </p>
    </div>
  );
}

/** What stands on the carton: heat and fat, and whether the cream was broken up in it. */
function Carton({ draft, onDraft }: { readonly draft: Draft; readonly onDraft: (draft: Draft) => void }): ReactNode {
  const { say } = useReader();
  const words = (key: string): string => say(`makes:have.${key}`);
  const homogenised = HOMOGENISED.find((one) => one === draft.facts['milk.homogenised']) ?? 'unsaid';
  return (
    <>
      <SelectField
        label={words('fields.carton')}
        hideLabel
        value={cartonOf(draft)}
        options={CARTONS.map((value) => ({ value, label: say(`plan:sentence.cartons.${value}`) }))}
        onChange={(carton) => onDraft(withCarton(draft, carton))}
      />{' '}
      <SelectField
        label={words('fields.homogenised')}
        hideLabel
        value={homogenised}
        options={HOMOGENISED.map((value) => ({ value, label: words(`homogenised.${value}`) }))}
        onChange={(value) => onDraft(withFact(draft, 'milk.homogenised', value === 'unsaid' ? null : value))}
      />
    </>
  );
}

function DayField({
  wish,
  now,
  label,
  onWish,
}: {
  readonly wish: Wish;
  readonly now: number;
  readonly label: string;
  readonly onWish: (wish: Wish) => void;
}): ReactNode {
  const { say, write } = useReader();
  const days = Array.from({ length: DAYS_AHEAD }, (_, ahead) => {
    const at = now + ahead * DAY_MS;
    const name = ahead === 0 ? say('plan:sentence.today') : ahead === 1 ? say('plan:sentence.tomorrow') : write.day(at);
    return { value: localDay(at), label: name };
  });
  return (
    <SelectField
      label={label}
      hideLabel
      value={days.some(({ value }) => value === wish.day) ? wish.day : localDay(now)}
      options={days}
      onChange={(day) => onWish({ ...wish, day })}
    />
  );
}

function TimeField({
  label,
  value,
  onChange,
}: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (time: string) => void;
}): ReactNode {
  const id = useId();
  return (
    <span className="field">
      <label htmlFor={id} className="out-of-sight">
        {label}
      </label>
      <span className="field-box">
        <input
          id={id}
          className="field-input numerals"
          type="time"
          step={300}
          value={value}
          onChange={(event) => onChange(event.target.value)}
        />
      </span>
    </span>
  );
}
