import type { ReactNode } from 'react';
import { useReader } from '../../device/reader.tsx';
import { Button } from '../../look/button.tsx';
import { Card } from '../../look/card.tsx';
import { SelectField } from '../../look/select-field.tsx';
import { at, inserted, listAt } from './edit.ts';
import { ChecksAt, ChoiceAt, LinesAt, RangeField, SourceAt, TextField } from './fields.tsx';
import { CHOICES } from './settings.ts';
import type { Edit } from './use-change.ts';

/** The milk, the words on its carton, and what other milk does. */
export function MilkPart({ edit }: { readonly edit: Edit }): ReactNode {
  const { say } = useReader();
  const label = (key: string): string => say(`change:label.${key}`);
  const deviations = listAt(edit.json, ['milk', 'deviations']);
  return (
    <Card aria-labelledby="change-milk" className="change-part">
      <h2 id="change-milk">{say('change:part.milk')}</h2>
      <ChecksAt
        edit={edit}
        path={['milk', 'species']}
        label={label('milk_species')}
        options={CHOICES.species}
        wordOf={(one) => say(`makes:milkOf.${one}`)}
      />
      <ChecksAt
        edit={edit}
        path={['milk', 'treatments']}
        label={label('milk_treatments')}
        options={CHOICES.treatments}
        wordOf={(one) => say(`makes:treatments.${one}`)}
      />
      <RangeField edit={edit} path={['milk', 'fatPercent']} label={label('milk_fatPercent')} unit="%" />
      <LinesAt
        edit={edit}
        path={['milk', 'cartonWords', 'buy']}
        label={label('milk_cartonWords_buy')}
        hint={say('change:hint.lines')}
      />
      <LinesAt
        edit={edit}
        path={['milk', 'cartonWords', 'avoid']}
        label={label('milk_cartonWords_avoid')}
        hint={say('change:hint.lines')}
      />
      <h3>{say('change:deviations')}</h3>
      {deviations.map((_, index) => (
        <fieldset key={String(at(edit.json, ['milk', 'deviations', index, 'when']))} className="change-group">
          <legend className="out-of-sight">{say('change:deviations')}</legend>
          <div className="change-figure">
            <ChoiceAt
              edit={edit}
              path={['milk', 'deviations', index, 'when']}
              label={say('change:when')}
              options={CHOICES.when}
              wordOf={(one) => say(`change:deviation.${one}`)}
            />
            <ChoiceAt
              edit={edit}
              path={['milk', 'deviations', index, 'effect']}
              label={say('change:effect')}
              options={CHOICES.effect}
              wordOf={(one) => say(`change:effects.${one}`)}
            />
            <Button kind="quiet" onClick={() => edit.put(['milk', 'deviations', index], undefined)}>
              {say('change:drop')}
            </Button>
          </div>
          <TextField
            edit={edit}
            path={['milk', 'deviations', index, 'because']}
            label={say('change:because')}
            lines={2}
          />
          <TextField
            edit={edit}
            path={['milk', 'deviations', index, 'instead']}
            label={say('change:instead')}
            lines={2}
          />
          <SourceAt edit={edit} path={['milk', 'deviations', index, 'source']} />
        </fieldset>
      ))}
      <AddDeviation edit={edit} />
    </Card>
  );
}

function AddDeviation({ edit }: { readonly edit: Edit }): ReactNode {
  const { say } = useReader();
  const said = new Set(
    listAt(edit.json, ['milk', 'deviations']).map((_, index) => at(edit.json, ['milk', 'deviations', index, 'when'])),
  );
  const left = CHOICES.when.filter((one) => !said.has(one));
  if (left.length === 0) return null;
  return (
    <SelectField
      label={say('change:addDeviation')}
      value=""
      options={[
        { value: '', label: say('change:choose') },
        ...left.map((value) => ({ value, label: say(`change:deviation.${value}`) })),
      ]}
      onChange={(when) =>
        when === ''
          ? undefined
          : edit.set(inserted(edit.json, ['milk', 'deviations'], { when, effect: 'caution', because: '', instead: '' }))
      }
    />
  );
}
