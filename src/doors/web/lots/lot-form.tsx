import { useId, useState, type ReactNode } from 'react';
import { typedSymbol, unitOfField } from '../../../exchange/told/unit-of.ts';
import { told, type Say } from '../../../exchange/words.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import type { Problem } from '../../../numbers/validity.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Choice } from '../look/choice.tsx';
import { Field } from '../look/field.tsx';
import { NumberField } from '../look/number-field.tsx';
import { SelectField } from '../look/select-field.tsx';
import { freshLot, LOT_FORMS, NUMBERS_OF, strengthUnit, type LotDraft, type LotKind, type LotNumber } from './lot-draft.ts'; // prettier-ignore

const KINDS: readonly LotKind[] = ['rennet', 'culture', 'calcium'];

/** What the label says of one packet or bottle; only the name must be there. */
export function LotForm({
  first,
  isNew,
  today,
  problems,
  onKeep,
  onCancel,
}: {
  readonly first: LotDraft;
  readonly isNew: boolean;
  readonly today: string;
  readonly problems: readonly Problem[];
  readonly onKeep: (draft: LotDraft) => void;
  /** Null where there is nothing to go back to. */
  readonly onCancel: (() => void) | null;
}): ReactNode {
  const { say, write } = useReader();
  const [draft, setDraft] = useState(first);
  const { kind, form } = draft;
  const forms: readonly string[] = LOT_FORMS[kind];
  const put = (change: Partial<LotDraft>): void => setDraft({ ...draft, ...change });
  const errorAt = (field: string): string | undefined => {
    const problem = problems.find((one) => one.field === field);
    return problem === undefined ? undefined : problemText({ problem, say, units: write.units });
  };
  return (
    <form
      className="lot-form"
      onSubmit={(event) => {
        event.preventDefault();
        onKeep(draft);
      }}
    >
      {isNew ? (
        <Choice
          label={say('lots:kind')}
          value={kind}
          options={KINDS.map((value) => ({ value, label: say(`lots:kinds.${value}`) }))}
          onChange={(chosen) => setDraft({ ...freshLot({ kind: chosen, today }), name: draft.name })}
        />
      ) : null}
      <div className="lot-fields">
        <span className="lot-name">
          <Field label={say('lots:name')} hint={say('lots:nameHint')} error={errorAt('name')}>
            {(ties) => (
              <input
                {...ties}
                className="field-input"
                maxLength={80}
                autoComplete="off"
                value={draft.name}
                onChange={(event) => put({ name: event.target.value })}
              />
            )}
          </Field>
        </span>
        {forms.length < 2 ? null : (
          <SelectField
            label={say('lots:form')}
            value={form}
            options={forms.map((value) => ({ value, label: say(`lots:forms.${value}`) }))}
            onChange={(chosen) => put({ form: chosen })}
          />
        )}
        {NUMBERS_OF[kind].map((field: LotNumber) => (
          <NumberField
            key={field}
            label={say(`lots:${field}`)}
            hint={field === 'strength' ? say('lots:strengthHint') : undefined}
            value={draft.texts[field]}
            unit={unitOf({ field, draft, units: write.units })}
            width={4}
            error={errorAt(field)}
            onChange={(text) => put({ texts: { ...draft.texts, [field]: text } })}
          />
        ))}
        <DayField
          label={say('lots:receivedOn')}
          value={draft.receivedOn}
          onChange={(receivedOn) => put({ receivedOn })}
        />
        <DayField label={say('lots:openedOn')} value={draft.openedOn} onChange={(openedOn) => put({ openedOn })} />
      </div>
      <p className="lot-form-actions">
        <button type="submit" className="button button-main button-desk">
          <span>{say('lots:save')}</span>
        </button>
        {onCancel === null ? null : <Button onClick={onCancel}>{say('lots:cancel')}</Button>}
      </p>
    </form>
  );
}

function DayField({
  label,
  value,
  onChange,
}: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (day: string) => void;
}): ReactNode {
  const id = useId();
  return (
    <span className="field">
      <label htmlFor={id} className="field-label">
        {label}
      </label>
      <span className="field-box">
        <input
          id={id}
          className="field-input numerals"
          type="date"
          value={value}
          onChange={(event) => onChange(event.target.value)}
        />
      </span>
    </span>
  );
}

function unitOf(input: { readonly field: LotNumber; readonly draft: LotDraft; readonly units: UnitSystem }): string {
  if (input.field === 'massG') return 'g';
  return input.field === 'strength' ? strengthUnit(input.draft) : typedSymbol({ unit: unitOfField('milkL'), units: input.units }); // prettier-ignore
}

function problemText(input: { readonly problem: Problem; readonly say: Say; readonly units: UnitSystem }): string {
  const { problem, say, units } = input;
  if (problem.field === 'name') return say('lots:noName', { remedy: problem.remedy });
  return say('lots:problem', {
    fact: say(`lots:${problem.field}`),
    value: String(problem.value),
    expected: sentenceInUnits({ text: told(say, problem.expected), units }),
    remedy: sentenceInUnits({ text: told(say, problem.remedy), units }),
  });
}
