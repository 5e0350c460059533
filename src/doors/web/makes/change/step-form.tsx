import type { ReactNode } from 'react';
import { CALLED_CAUTIONS } from '../../../../exchange/make-checks.ts';
import { useReader } from '../../device/reader.tsx';
import { Button } from '../../look/button.tsx';
import { SelectField } from '../../look/select-field.tsx';
import { cautionName } from '../make-page-view.ts';
import { problemText } from './change-view.ts';
import { at, fieldOf, inserted, listAt, put } from './edit.ts';
import { ChecksAt, ChoiceAt, FigureField, SourceAt, TextField } from './fields.tsx';
import { CHOICES, ENDS, FIGURES, freshEnd, gradesOf, SETTINGS, WORDS } from './settings.ts';
import type { Edit } from './use-change.ts';

/** One step, all of it: what it is called, what is set, until when, hands, words, kit, what to make ready, cautions. */
export function StepForm({ edit, index }: { readonly edit: Edit; readonly index: number }): ReactNode {
  const { say } = useReader();
  const path = ['steps', index];
  const label = (key: string): string => say(`change:label.${key}`);
  return (
    <div className="change-step-form">
      <ChoiceAt
        edit={edit}
        path={[...path, 'verb']}
        label={label('verb')}
        options={CHOICES.verb}
        wordOf={(one) => say(`change:verb.${one}`)}
      />
      <TextField edit={edit} path={[...path, 'name']} label={label('name')} most={40} />
      <TextField edit={edit} path={[...path, 'how']} label={label('how')} lines={3} most={160} />
      <TextField edit={edit} path={[...path, 'done']} label={label('done')} most={28} />
      <SetPart edit={edit} index={index} />
      <EndsPart edit={edit} index={index} />
      <fieldset className="change-group">
        <legend>{say('change:hands')}</legend>
        {(['startMin', 'duringMin', 'endMin'] as const).map((key) => (
          <FigureField key={key} edit={edit} path={[...path, 'hands', key]} label={label(`hands_${key}`)} unit="min" />
        ))}
      </fieldset>
      <TextField edit={edit} path={[...path, 'why']} label={label('why')} lines={2} />
      <ChecksAt
        edit={edit}
        path={[...path, 'kit']}
        label={label('kit')}
        options={CHOICES.kit}
        wordOf={(one) => say(`change:kit.${one}`)}
      />
      <PreparePart edit={edit} index={index} />
      <ChecksAt
        edit={edit}
        path={[...path, 'cautions']}
        label={label('cautions')}
        options={CALLED_CAUTIONS}
        wordOf={(one) => cautionName(one, say)}
      />
    </div>
  );
}

function SetPart({ edit, index }: { readonly edit: Edit; readonly index: number }): ReactNode {
  const telling = useReader();
  const { say } = telling;
  const path = ['steps', index, 'set'];
  const given = SETTINGS.filter((name) => at(edit.json, [...path, name]) !== undefined);
  const missing = SETTINGS.flatMap((name) => {
    const problem = given.includes(name) ? undefined : edit.problemAt([...path, name]);
    return problem === undefined ? [] : [{ name, problem }];
  });
  const drop = (name: string) => () => edit.put([...path, name], undefined);
  return (
    <fieldset className="change-group">
      <legend>{say('change:set')}</legend>
      {given.map((name) => {
        const words = WORDS[name];
        return words === undefined ? (
          <FigureField
            key={name}
            edit={edit}
            path={[...path, name]}
            label={say(`change:label.set_${name}`)}
            unit={FIGURES[name] ?? ''}
            onDrop={drop(name)}
          />
        ) : (
          <div key={name} className="change-figure">
            <ChoiceAt
              edit={edit}
              path={[...path, name]}
              label={say(`change:label.set_${name}`)}
              options={words}
              wordOf={(one) => (name === 'ingredient' ? say(`makes:ingredients.${one}`) : say(`change:word.${one}`))}
            />
            <Button
              kind="quiet"
              aria-label={say('change:dropOf', { what: say(`change:label.set_${name}`) })}
              onClick={drop(name)}
            >
              {say('change:drop')}
            </Button>
          </div>
        );
      })}
      {missing.map(({ name, problem }) => (
        <p key={name} className="field-error">
          {say(`change:label.set_${name}`)}: {problemText(problem, telling)}
        </p>
      ))}
      <SelectField
        label={say('change:addSetting')}
        value=""
        options={[
          { value: '', label: say('change:choose') },
          ...SETTINGS.filter((name) => !given.includes(name)).map((value) => ({
            value,
            label: say(`change:label.set_${value}`),
          })),
        ]}
        onChange={(name) =>
          name === ''
            ? undefined
            : edit.put([...path, name], WORDS[name]?.[0] ?? { value: 0, source: 'common practice' })
        }
      />
    </fieldset>
  );
}

function EndsPart({ edit, index }: { readonly edit: Edit; readonly index: number }): ReactNode {
  const { say } = useReader();
  const path = ['steps', index, 'until'];
  const ends = listAt(edit.json, [...path, 'of']);
  return (
    <fieldset className="change-group">
      <legend>{say('change:until')}</legend>
      {ends.length < 2 ? null : (
        <ChoiceAt
          edit={edit}
          path={[...path, 'join']}
          label={say('change:join')}
          options={['first', 'all']}
          wordOf={(one) => say(`change:joins.${one}`)}
        />
      )}
      {ends.map((_, number) => (
        <End
          key={fieldOf([...path, 'of', number])}
          edit={edit}
          index={index}
          number={number}
          isOnly={ends.length === 1}
        />
      ))}
      <SelectField
        label={say('change:addEnd')}
        value=""
        options={[
          { value: '', label: say('change:choose') },
          ...Object.keys(ENDS).map((value) => ({ value, label: say(`change:end.${value}`) })),
        ]}
        onChange={(kind) => (kind === '' ? undefined : edit.set(inserted(edit.json, [...path, 'of'], freshEnd(kind))))}
      />
    </fieldset>
  );
}

function End({
  edit,
  index,
  number,
  isOnly,
}: {
  readonly edit: Edit;
  readonly index: number;
  readonly number: number;
  readonly isOnly: boolean;
}): ReactNode {
  const { say } = useReader();
  const path = ['steps', index, 'until', 'of', number];
  const kind = String(at(edit.json, [...path, 'kind']));
  const shape = ENDS[kind];
  const drop = isOnly ? undefined : () => edit.put(path, undefined);
  if (shape !== null && shape !== undefined) {
    return (
      <div className="change-end">
        {kind === 'pH' ? (
          <ChoiceAt
            edit={edit}
            path={[...path, 'sample']}
            label={say('change:of')}
            options={CHOICES.readSamples}
            wordOf={(one) => say(`change:sample.${one}`)}
          />
        ) : null}
        <FigureField
          edit={edit}
          path={[...path, shape.figure]}
          label={say(`change:end.${kind}`)}
          unit={shape.unit}
          {...(drop === undefined ? {} : { onDrop: drop })}
        />
      </div>
    );
  }
  const judgement = String(at(edit.json, [...path, 'judgement']));
  return (
    <div className="change-figure">
      <SelectField
        label={say('change:end.judgement')}
        value={judgement}
        options={CHOICES.judgements.map((value) => ({ value, label: say(`vat:judge.${value}.title`) }))}
        onChange={(chosen) =>
          edit.set(
            put(edit.json, path, {
              ...freshEnd('judgement'),
              judgement: chosen,
              grade: gradesOf(chosen)[2] ?? gradesOf(chosen)[0],
            }),
          )
        }
      />
      <ChoiceAt
        edit={edit}
        path={[...path, 'grade']}
        label={say('change:grade')}
        options={gradesOf(judgement)}
        wordOf={(one) => say(`vat:judge.${judgement}.${one}.name`)}
      />
      <SourceAt edit={edit} path={[...path, 'source']} />
      {drop === undefined ? null : (
        <Button kind="quiet" onClick={drop}>
          {say('change:drop')}
        </Button>
      )}
    </div>
  );
}

function PreparePart({ edit, index }: { readonly edit: Edit; readonly index: number }): ReactNode {
  const { say } = useReader();
  const path = ['steps', index, 'prepare'];
  const fresh = {
    id: `ready-${listAt(edit.json, path).length + 1}`,
    what: '',
    amount: 'none',
    leadMinutes: { value: 15, source: 'common practice' },
  };
  return (
    <fieldset className="change-group">
      <legend>{say('change:prepare')}</legend>
      {listAt(edit.json, path).map((_, number) => (
        <div key={fieldOf([...path, number])} className="change-end">
          <TextField edit={edit} path={[...path, number, 'what']} label={say('change:prepareWhat')} />
          <ChoiceAt
            edit={edit}
            path={[...path, number, 'amount']}
            label={say('change:prepareAmount')}
            options={CHOICES.prepared}
            wordOf={(one) => say(`change:prepared.${one}`)}
          />
          <FigureField
            edit={edit}
            path={[...path, number, 'leadMinutes']}
            label={say('change:prepareLead')}
            unit="min"
            onDrop={() => edit.put([...path, number], undefined)}
          />
        </div>
      ))}
      <Button onClick={() => edit.set(inserted(edit.json, path, fresh))}>{say('change:addPrepare')}</Button>
    </fieldset>
  );
}
