import { useState, type ReactNode } from 'react';
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
import { DayField } from '../look/day-field.tsx';
import { freshLot, LOT_FORMS, NUMBERS_OF, strengthUnit, UNITS_OF, type LotDraft, type LotKind, type LotNumber } from './lot-draft.ts'; // prettier-ignore

const KINDS = ['rennet', 'culture', 'calcium'] as const;
const OTHERS: readonly LotKind[] = ['milk', 'cream', 'salt', 'acid', 'lipase', 'ripeningCulture', 'colour', 'wax', 'other']; // prettier-ignore

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
  const { say, write, settings } = useReader();
  const [draft, setDraft] = useState(first);
  const { kind, form } = draft;
  const forms: readonly string[] = LOT_FORMS[kind];
  const put = (change: Partial<LotDraft>): void => setDraft({ ...draft, ...change });
  const become = (chosen: LotKind): void => setDraft({ ...freshLot({ kind: chosen, today }), name: draft.name });
  const numbers: readonly LotNumber[] = NUMBERS_OF[kind];
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
        <>
          <Choice
            label={say('lots:kind')}
            value={KINDS.find((one) => one === kind) ?? 'another'}
            options={[
              ...KINDS.map((value) => ({ value, label: say(`lots:kinds.${value}`) })),
              { value: 'another' as const, label: say('stores:another') },
            ]}
            onChange={(chosen) => become(chosen === 'another' ? 'salt' : chosen)}
          />
          {OTHERS.includes(kind) ? (
            <SelectField
              label={say('stores:which')}
              value={kind}
              options={OTHERS.map((value) => ({ value, label: say(`stores:kinds.${value}`) }))}
              onChange={become}
            />
          ) : null}
        </>
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
        {numbers.map((field) => (
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
        <NumberField
          label={say('stores:amount')}
          hint={say('stores:amountHint')}
          value={draft.texts.amount ?? ''}
          unit={UNITS_OF[kind].length === 1 ? (UNITS_OF[kind][0] ?? '') : ''}
          width={4}
          error={errorAt('amount')}
          onChange={(text) => put({ texts: { ...draft.texts, amount: text } })}
        />
        {UNITS_OF[kind].length === 1 ? null : (
          <SelectField
            label={say('stores:unit')}
            value={draft.amountUnit ?? UNITS_OF[kind][0] ?? 'g'}
            options={UNITS_OF[kind].map((value) => ({ value, label: value }))}
            onChange={(amountUnit) => put({ amountUnit })}
          />
        )}
        <NumberField
          label={say('stores:price')}
          value={draft.texts.price ?? ''}
          unit={settings.currency}
          width={5}
          error={errorAt('price')}
          onChange={(text) => put({ texts: { ...draft.texts, price: text } })}
        />
        <DayField
          label={say('lots:receivedOn')}
          value={draft.receivedOn}
          onChange={(receivedOn) => put({ receivedOn })}
        />
        <DayField
          label={say('stores:expiresOn')}
          value={draft.expiresOn ?? ''}
          onChange={(expiresOn) => put({ expiresOn })}
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

function unitOf(input: { readonly field: LotNumber; readonly draft: LotDraft; readonly units: UnitSystem }): string {
  if (input.field === 'massG') return 'g';
  return input.field === 'strength' ? strengthUnit(input.draft) : typedSymbol({ unit: unitOfField('milkL'), units: input.units }); // prettier-ignore
}

function problemText(input: { readonly problem: Problem; readonly say: Say; readonly units: UnitSystem }): string {
  const { problem, say, units } = input;
  if (problem.field === 'name') return say('lots:noName', { remedy: problem.remedy });
  return say('lots:problem', {
    fact: say(problem.field === 'amount' || problem.field === 'price' ? `stores:problem.${problem.field}` : `lots:${problem.field}`), // prettier-ignore
    value: String(problem.value),
    expected: sentenceInUnits({ text: told(say, problem.expected), units }),
    remedy: sentenceInUnits({ text: told(say, problem.remedy), units }),
  });
}
