import { Fragment, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { SelectField } from '../look/select-field.tsx';
import { shownText } from './assumed-view.ts';
import { Blank, errorAt } from './blank.tsx';
import { changedTo, filledOf } from './either.ts';
import type { LeafField, RowsField } from '../../../exchange/told/field-shapes.ts';
import { RowsBlank } from './rows-blank.tsx';
import { pathsIn, type SentencePart } from './sentence-parts.ts';
import { Sentence } from './sentence.tsx';
import { cellPath, rowsOf, withText } from './sum-draft.ts';
import { fieldAt, type SumState } from './sum-state.ts';
import { fieldLabel, sayFirst } from '../../../exchange/told/sum-words.ts';

/** The sum as a sentence with blanks; tables of readings stand beneath it. */
export function Ask({
  state,
  parts,
}: {
  readonly state: SumState;
  readonly parts: readonly SentencePart[];
}): ReactNode {
  const { say } = useReader();
  const inline = pathsIn(parts);
  const tables = state.fields.filter(
    (field): field is RowsField => field.kind === 'rows' && !inline.includes(field.path),
  );
  const first = [...tables].sort((a, b) => Number(b.required) - Number(a.required));
  return (
    <div className="ask" role="group" aria-label={say('bench:question')}>
      <Sentence parts={parts}>{({ paths, tail }) => <Filled state={state} paths={paths} tail={tail} />}</Sentence>
      {first.map((field) => (
        <RowsBlank key={field.path} state={state} field={field} />
      ))}
    </div>
  );
}

/** A blank of the sentence, or several of which one is filled. */
export function Filled({
  state,
  paths,
  tail,
}: {
  readonly state: SumState;
  readonly paths: readonly string[];
  readonly tail: string;
}): ReactNode {
  const { say } = useReader();
  const { draft, name, result } = state;
  const known = paths.filter((path) => fieldAt(state, path) !== null);
  const path = filledOf({ draft, paths: known });
  const field = fieldAt(state, path);
  if (field === null) return null;
  if (field.kind === 'rows') return <Inline state={state} field={field} tail={tail} />;
  const { bothWhen } = state.shape;
  if (known.length > 1 && bothWhen !== undefined && (draft.texts[bothWhen] ?? '') !== '') {
    return known.map((one) => {
      const each = fieldAt(state, one);
      if (each === null || each.kind === 'rows') return null;
      return (
        <Fragment key={one}>
          {eitherLabel(one)} <One state={state} field={each} />{' '}
        </Fragment>
      );
    });
  }
  return (
    <>
      {known.length < 2 ? null : (
        <>
          <SelectField
            label={known.map((one) => fieldLabel({ say, sum: name, path: one })).join(', ')}
            hideLabel
            value={path}
            options={known.map((value) => ({ value, label: eitherLabel(value) }))}
            onChange={(to) => state.change(changedTo({ draft, paths: known, to, result }))}
          />{' '}
        </>
      )}
      <span className="ask-keep">
        <One state={state} field={field} />
        {tail}
      </span>
    </>
  );
  function eitherLabel(value: string): string {
    return sayFirst(say, [`bench:sums.${name}.either.${value}`]) ?? fieldLabel({ say, sum: name, path: value });
  }
}

const One = ({ state, field }: { readonly state: SumState; readonly field: LeafField }): ReactNode => (
  <Blank
    state={state}
    field={field}
    text={shownText({ field, draft: state.draft })}
    onText={(text) => state.change(withText({ draft: state.draft, path: field.path, text }))}
  />
);

/** How many sizes each shape has; other lists keep one blank free at their end. */
const SIZES: Readonly<Record<string, number>> = { sphere: 1, cylinder: 2, brick: 3 };
const MOST_IN_LINE = 4;

/** A list of numbers inside the sentence. */
function Inline({
  state,
  field,
  tail,
}: {
  readonly state: SumState;
  readonly field: RowsField;
  readonly tail: string;
}): ReactNode {
  const { say } = useReader();
  const { draft, name } = state;
  const column = field.columns[0];
  if (column === undefined) return null;
  const rows = rowsOf({ draft, path: field.path });
  const shape = field.path === 'mm' ? draft.texts['shape'] : undefined;
  const count = SIZES[shape ?? ''] ?? Math.min(MOST_IN_LINE, rows.filter((row) => (row[''] ?? '') !== '').length + 1);
  const whole = errorAt({ state, path: field.path, say });
  return (
    <>
      {Array.from({ length: count }, (_, index) => {
        const path = cellPath({ path: field.path, index, column: '' });
        const label = fieldLabel({ say, sum: name, path: shape === undefined ? field.path : `mm-${shape}-${index}` });
        const isSpare = shape === undefined && index === count - 1;
        return (
          <Fragment key={path}>
            {index === 0 ? null : ' '}
            <span className="ask-keep">
              <Blank
                state={state}
                field={{ ...column, required: !isSpare }}
                path={path}
                text={draft.texts[path] ?? ''}
                label={shape === undefined ? say('bench:rows.row', { column: label, row: index + 1 }) : label}
                hint={shape === undefined ? undefined : label.toLowerCase()}
                quiet={isSpare}
                onText={(text) =>
                  state.change(withText({ draft, path, text: text === '' && index >= rows.length - 1 ? null : text }))
                }
              />
              {index === count - 1 ? tail : ''}
            </span>
          </Fragment>
        );
      })}
      {whole === undefined ? null : (
        <span className="field-error" role="alert">
          {whole}
        </span>
      )}
    </>
  );
}
