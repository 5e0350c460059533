import { useState, type ReactNode } from 'react';
import { useReader } from '../../device/reader.tsx';
import { Button } from '../../look/button.tsx';
import { Card } from '../../look/card.tsx';
import { SelectField } from '../../look/select-field.tsx';
import { at, listAt, shifted, withoutStep, withStep } from './edit.ts';
import { CHOICES } from './settings.ts';
import { StepForm } from './step-form.tsx';
import type { Edit } from './use-change.ts';

/** The steps in their order: each a line until it is opened; moved, taken out, added after another. */
export function StepsPart({
  edit,
  doubted,
}: {
  readonly edit: Edit;
  /** How many problems and doubts stand on a step, by its place. */
  readonly doubted: ReadonlyMap<number, number>;
}): ReactNode {
  const { say } = useReader();
  const steps = listAt(edit.json, ['steps']);
  const [open, setOpen] = useState<string | null>(null);
  return (
    <Card aria-labelledby="change-steps" className="change-part">
      <h2 id="change-steps">{say('change:part.steps')}</h2>
      <ol className="change-steps">
        {steps.map((_, index) => {
          const id = String(at(edit.json, ['steps', index, 'id']));
          const name = String(at(edit.json, ['steps', index, 'name']));
          const shown = name === '' ? say('change:unnamed') : name;
          const count = doubted.get(index) ?? 0;
          return (
            <li key={id} className="change-step">
              <div className="change-step-line">
                <button
                  type="button"
                  className="change-step-name"
                  aria-expanded={open === id}
                  onClick={() => setOpen(open === id ? null : id)}
                >
                  <span className="numerals change-step-number">{index + 1}</span>
                  <span>{shown}</span>
                  {count === 0 ? null : <span className="change-step-doubt">{say('change:doubts', { count })}</span>}
                </button>
                <Button
                  kind="quiet"
                  aria-label={say('change:upOf', { what: shown })}
                  disabled={index === 0}
                  onClick={() => edit.set(shifted(edit.json, ['steps'], index, -1))}
                >
                  {say('change:up')}
                </Button>
                <Button
                  kind="quiet"
                  aria-label={say('change:downOf', { what: shown })}
                  disabled={index === steps.length - 1}
                  onClick={() => edit.set(shifted(edit.json, ['steps'], index, 1))}
                >
                  {say('change:down')}
                </Button>
                <Button
                  kind="quiet"
                  aria-label={say('change:dropOf', { what: shown })}
                  onClick={() => edit.set(withoutStep(edit.json, index))}
                >
                  {say('change:drop')}
                </Button>
              </div>
              {open === id ? (
                <>
                  <StepForm edit={edit} index={index} />
                  <AddStep
                    edit={edit}
                    after={index}
                    label={say('change:addAfter', { what: shown })}
                    onAdded={setOpen}
                  />
                </>
              ) : null}
            </li>
          );
        })}
      </ol>
      <AddStep edit={edit} after={steps.length - 1} label={say('change:addStep')} onAdded={setOpen} />
    </Card>
  );
}

function AddStep({
  edit,
  after,
  label,
  onAdded,
}: {
  readonly edit: Edit;
  readonly after: number;
  readonly label: string;
  readonly onAdded: (id: string) => void;
}): ReactNode {
  const { say } = useReader();
  return (
    <SelectField
      label={label}
      value=""
      options={[
        { value: '', label: say('change:choose') },
        ...CHOICES.verb.map((value) => ({ value, label: say(`change:verb.${value}`) })),
      ]}
      onChange={(verb) => {
        if (verb === '') return;
        const more = withStep(edit.json, { verb, after });
        edit.set(more);
        onAdded(String(at(more, ['steps', after + 1, 'id'])));
      }}
    />
  );
}
