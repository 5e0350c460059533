import type { ReactNode } from 'react';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import { Field } from '../look/field.tsx';
import { NumberField } from '../look/number-field.tsx';
import { SelectField } from '../look/select-field.tsx';
import type { Pile } from './label-pile.ts';
import { PAPERS, STOCKS, placesOn, type PaperId, type StockId } from './label-stock.ts';
import { customaryDay, noonOf, type Dating, type LabelChoices } from './label-view.ts';

const DATINGS: readonly Dating[] = ['useBy', 'bestBefore', 'byHand'];
const isStock = (id: string): id is StockId => id in STOCKS;
const isPaper = (id: string): id is PaperId => id in PAPERS;

/** What the maker decides: date, net weight, how many and on what sheets. */
export function LabelForm({
  record,
  plan,
  choices,
  pile,
  problems,
  isWeighed = false,
  onChoices,
  onPile,
}: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly choices: LabelChoices;
  readonly pile: Pile;
  readonly problems: Readonly<Partial<Record<'day' | 'netG' | 'count' | 'used', string>>>;
  /** True where weights and count come from what was weighed: then neither is asked. */
  readonly isWeighed?: boolean;
  readonly onChoices: (choices: LabelChoices) => void;
  readonly onPile: (pile: Pile) => void;
}): ReactNode {
  const { say, write } = useReader();
  const { days, note } = { days: plan.make.shelfLife.days, note: plan.make.shelfLife.note };
  const source = typeof days.source === 'number' ? (plan.make.sources[days.source] ?? '') : say('labels:commonPractice'); // prettier-ignore
  const customaryAt = noonOf(customaryDay({ record, plan }));
  return (
    <form className="labels-form" onSubmit={(event) => event.preventDefault()}>
      <SelectField
        label={say('labels:datingLabel')}
        value={choices.dating}
        options={DATINGS.map((value) => ({ value, label: say(`labels:datingChoice.${value}`) }))}
        onChange={(dating) => onChoices({ ...choices, dating })}
      />
      {choices.dating === 'byHand' ? null : (
        <Field label={say('labels:dayLabel')} error={problems.day}>
          {(ties) => (
            <input
              {...ties}
              className="field-input numerals"
              type="date"
              value={choices.day}
              onChange={(event) => onChoices({ ...choices, day: event.target.value })}
            />
          )}
        </Field>
      )}
      <p className="labels-small">
        {say('labels:hint', { day: customaryAt === null ? '' : write.date(customaryAt), count: days.value, source })}{' '}
        {note}
      </p>
      {isWeighed ? null : (
        <>
          <NumberField
            label={say('labels:netLabel')}
            hint={say('labels:netHint')}
            error={problems.netG}
            value={choices.netG}
            unit="g"
            onChange={(netG) => onChoices({ ...choices, netG })}
          />
          <NumberField
            label={say('labels:countLabel')}
            error={problems.count}
            value={pile.count}
            unit=""
            width={4}
            onChange={(count) => onPile({ ...pile, count })}
          />
        </>
      )}
      <SelectField
        label={say('labels:stockLabel')}
        value={pile.stock}
        options={Object.keys(STOCKS)
          .filter(isStock)
          .map((value) => ({
            value,
            label: say(`labels:stock.${value}`, { count: placesOn({ stock: value, paper: pile.paper }).length }),
          }))}
        onChange={(stock) => onPile({ ...pile, stock })}
      />
      <SelectField
        label={say('labels:paperLabel')}
        value={pile.paper}
        options={Object.keys(PAPERS)
          .filter(isPaper)
          .map((value) => ({ value, label: say(`labels:paper.${value}`) }))}
        onChange={(paper) => onPile({ ...pile, paper })}
      />
      <NumberField
        label={say('labels:usedLabel')}
        hint={say('labels:usedHint')}
        error={problems.used}
        value={pile.used}
        unit=""
        width={4}
        onChange={(used) => onPile({ ...pile, used })}
      />
    </form>
  );
}
