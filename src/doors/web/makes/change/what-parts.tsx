import type { ReactNode } from 'react';
import { useReader } from '../../device/reader.tsx';
import { Button } from '../../look/button.tsx';
import { Card } from '../../look/card.tsx';
import { SelectField } from '../../look/select-field.tsx';
import { at, fieldOf, inserted, listAt, put } from './edit.ts';
import { ChecksAt, ChoiceAt, FigureField, LinesAt, NumberAt, RangeField, TextField } from './fields.tsx';
import { CHOICES, DOSE_NAMES, DOSES, freshDose, type DoseName } from './settings.ts';
import type { Edit } from './use-change.ts';

/** What it is: name, kind, a sentence or two, how hard, how long it keeps. */
export function WhatPart({ edit }: { readonly edit: Edit }): ReactNode {
  const { say } = useReader();
  const label = (key: string): string => say(`change:label.${key}`);
  return (
    <Card aria-labelledby="change-what" className="change-part">
      <h2 id="change-what">{say('change:part.what')}</h2>
      <TextField edit={edit} path={['name']} label={label('name')} />
      <ChoiceAt
        edit={edit}
        path={['family']}
        label={label('family')}
        options={CHOICES.family}
        wordOf={(one) => say(`makes:families.${one}`)}
      />
      <TextField edit={edit} path={['about']} label={label('about')} lines={3} />
      <NumberAt edit={edit} path={['difficulty']} label={label('difficulty')} hint={say('change:hint.difficulty')} />
      <FigureField edit={edit} path={['shelfLife', 'days']} label={label('shelfLife_days')} unit="d" />
      <FigureField edit={edit} path={['shelfLife', 'keptAtC']} label={label('shelfLife_keptAtC')} unit="°C" />
      <TextField edit={edit} path={['shelfLife', 'note']} label={label('shelfLife_note')} lines={2} />
      <LinesAt edit={edit} path={['aliases']} label={label('aliases')} hint={say('change:hint.aliases')} />
    </Card>
  );
}

/** What goes in for each litre. */
export function DosesPart({ edit }: { readonly edit: Edit }): ReactNode {
  const { say } = useReader();
  const left = DOSE_NAMES.filter((name) => at(edit.json, ['doses', name]) === undefined);
  return (
    <Card aria-labelledby="change-doses" className="change-part">
      <h2 id="change-doses">{say('change:part.doses')}</h2>
      <p className="change-note">{say('change:hint.doses')}</p>
      {DOSE_NAMES.filter((name) => !left.includes(name)).map((name) => (
        <Dose key={name} edit={edit} name={name} />
      ))}
      {left.length === 0 ? null : (
        <SelectField
          label={say('change:addDose')}
          value=""
          options={[
            { value: '', label: say('change:choose') },
            ...left.map((value) => ({ value, label: say(`makes:ingredients.${value}`) })),
          ]}
          onChange={(name) => (name === '' ? undefined : edit.put(['doses', name], freshDose(name)))}
        />
      )}
    </Card>
  );
}

function Dose({ edit, name }: { readonly edit: Edit; readonly name: DoseName }): ReactNode {
  const { say } = useReader();
  const path = ['doses', name];
  const drop = (
    <Button kind="quiet" onClick={() => edit.put(path, undefined)}>
      {say('change:dropOf', { what: say(`makes:ingredients.${name}`) })}
    </Button>
  );
  if (name === 'calcium') {
    return (
      <fieldset className="change-group">
        <legend>{say(`makes:ingredients.${name}`)}</legend>
        <FigureField edit={edit} path={[...path, 'gPerL']} label={say('change:label.doses_calcium_gPerL')} unit="g/L" />
        <ChecksAt
          edit={edit}
          path={[...path, 'whenTreatments']}
          label={say('change:label.doses_calcium_whenTreatments')}
          options={CHOICES.treatments}
          wordOf={(one) => say(`makes:treatments.${one}`)}
        />
        {drop}
      </fieldset>
    );
  }
  const { range, unit, kinds } = DOSES[name];
  return (
    <fieldset className="change-group">
      <legend>{say(`makes:ingredients.${name}`)}</legend>
      {kinds === null ? null : (
        <ChoiceAt
          edit={edit}
          path={[...path, 'kind']}
          label={say('change:kind')}
          options={kinds}
          wordOf={(one) => (name === 'culture' ? say(`plan:cultureKinds.${one}`) : say(`change:acid.${one}`))}
        />
      )}
      <RangeField edit={edit} path={[...path, range]} label={say(`change:label.doses_${name}_${range}`)} unit={unit} />
      {name === 'culture' ? (
        <RangeField
          edit={edit}
          path={[...path, 'bulkPercent']}
          label={say('change:label.doses_culture_bulkPercent')}
          unit="%"
        />
      ) : null}
      {name === 'cream' || name === 'milk' ? (
        <FigureField edit={edit} path={[...path, 'fatPercent']} label={say('change:label.fatPercent')} unit="%" />
      ) : null}
      {drop}
    </fieldset>
  );
}

/** What makes it this cheese, and where each figure is from. */
export function AimsPart({ edit }: { readonly edit: Edit }): ReactNode {
  const { say } = useReader();
  const aims = listAt(edit.json, ['aims']);
  const moments = [
    'finished',
    ...listAt(edit.json, ['steps']).map((_, index) => String(at(edit.json, ['steps', index, 'id']))),
  ];
  const nameOf = (id: string): string => {
    const index = moments.indexOf(id) - 1;
    return id === 'finished' ? say('change:finished') : String(at(edit.json, ['steps', index, 'name']));
  };
  const fresh = {
    quantity: 'pH',
    sample: 'curd',
    moment: 'finished',
    low: 5,
    aim: 5.2,
    high: 5.4,
    basis: '',
    source: 'common practice',
  };
  return (
    <Card aria-labelledby="change-aims" className="change-part">
      <h2 id="change-aims">{say('change:part.aims')}</h2>
      {aims.map((_, index) => (
        <fieldset key={fieldOf(['aims', index])} className="change-group">
          <legend className="out-of-sight">{say('change:part.aims')}</legend>
          <div className="change-figure">
            <ChoiceAt
              edit={edit}
              path={['aims', index, 'quantity']}
              label={say('change:quantity')}
              options={CHOICES.aims}
              wordOf={(one) => say(`change:aim.${one}`)}
            />
            <ChoiceAt
              edit={edit}
              path={['aims', index, 'sample']}
              label={say('change:of')}
              options={CHOICES.samples}
              wordOf={(one) => say(`makes:samples.${one}`)}
            />
            <ChoiceAt
              edit={edit}
              path={['aims', index, 'moment']}
              label={say('change:moment')}
              options={moments}
              wordOf={nameOf}
            />
          </div>
          <RangeField edit={edit} path={['aims', index]} label={say('change:range.title')} />
          <TextField edit={edit} path={['aims', index, 'basis']} label={say('change:basis')} />
          <Button kind="quiet" onClick={() => edit.put(['aims', index], undefined)}>
            {say('change:drop')}
          </Button>
        </fieldset>
      ))}
      <Button onClick={() => edit.set(inserted(edit.json, ['aims'], fresh))}>{say('change:addAim')}</Button>
    </Card>
  );
}

/** What a plan may choose of it, and the list of sources. */
export function RestPart({ edit }: { readonly edit: Edit }): ReactNode {
  const { say } = useReader();
  const free = listAt(edit.json, ['free']);
  return (
    <Card aria-labelledby="change-rest" className="change-part">
      <h2 id="change-rest">{say('change:part.sources')}</h2>
      <LinesAt edit={edit} path={['sources']} label={say('change:label.sources')} hint={say('change:hint.sources')} />
      {free.length === 0 ? null : <h3>{say('change:free')}</h3>}
      {free.map((_, index) => (
        <div key={fieldOf(['free', index])} className="change-figure">
          <NumberAt
            edit={edit}
            path={['free', index, 'low']}
            label={`${String(at(edit.json, ['free', index, 'name']))}: ${say('change:range.low')}`}
          />
          <NumberAt edit={edit} path={['free', index, 'high']} label={say('change:range.high')} />
          <FreeProblem edit={edit} index={index} />
          <Button kind="quiet" onClick={() => edit.set(put(edit.json, ['free', index], undefined))}>
            {say('change:drop')}
          </Button>
        </div>
      ))}
    </Card>
  );
}

function FreeProblem({ edit, index }: { readonly edit: Edit; readonly index: number }): ReactNode {
  const { say } = useReader();
  return edit.problemAt(['free', index]) === undefined ? null : (
    <p className="field-error">{say('change:freeWiden')}</p>
  );
}
