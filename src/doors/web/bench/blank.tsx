import type { ReactNode } from 'react';
import type { Say } from '../../../exchange/words.ts';
import { useReader } from '../device/reader.tsx';
import { NumberField } from '../look/number-field.tsx';
import { SelectField, type Option, type OptionGroup } from '../look/select-field.tsx';
import type { LeafField } from '../../../exchange/told/field-shapes.ts';
import { needsIngredient, unitGroups } from './measure-options.ts';
import { fieldPathOf } from './sum-draft.ts';
import type { SumState } from './sum-state.ts';
import { dotted, fieldLabel, optionLabel, problemSentence } from '../../../exchange/told/sum-words.ts';
import { typedSymbol, unitOfField } from '../../../exchange/told/unit-of.ts';

/** One blank of a sum: a number with its unit inside, or one of a few words. */
export function Blank({
  state,
  field,
  path = field.path,
  text,
  label,
  hint,
  hideLabel = true,
  quiet = false,
  bare = false,
  onText,
}: {
  readonly state: SumState;
  readonly field: LeafField;
  /** Of the cell, where the blank stands in a table. */
  readonly path?: string;
  readonly text: string;
  readonly label?: string;
  readonly hint?: string | undefined;
  readonly hideLabel?: boolean;
  /** Without the small mark beneath. */
  readonly quiet?: boolean;
  /** Without its unit, which stands above in the table's head. */
  readonly bare?: boolean;
  readonly onText: (text: string) => void;
}): ReactNode {
  const { say, write } = useReader();
  const { name: sum, draft } = state;
  const named = label ?? fieldLabel({ say, sum, path });
  const isExample = draft.examples.includes(fieldPathOf(path));
  const mark = quiet ? undefined : markOf();
  const error = errorAt({ state, path, say });
  function markOf(): string | undefined {
    if (isExample && text !== '') return say('bench:example');
    if (field.kind === 'choice' || field.required) return undefined;
    if (text === '') return say('bench:unknown');
    return draft.texts[path] === undefined ? say('bench:more.tag') : undefined;
  }
  if (field.kind === 'choice') {
    return (
      <SelectField
        label={named}
        value={text}
        hideLabel={hideLabel}
        options={optionsOf(state, field, say)}
        hint={hint ?? mark}
        error={error}
        onChange={onText}
      />
    );
  }
  return (
    <NumberField
      label={named}
      value={text}
      unit={
        bare || field.kind === 'text' ? '' : write.unit(typedSymbol({ unit: unitOfField(path), units: write.units }))
      }
      width={Math.max(field.kind === 'text' ? 7 : 3, text.length + 1.5)}
      hideLabel={hideLabel}
      hint={hint ?? mark}
      error={error}
      onChange={onText}
    />
  );
}

/** What is wrong with a blank, in the house form; undefined where nothing is. */
export function errorAt({
  state,
  path,
  say,
}: {
  readonly state: SumState;
  readonly path: string;
  readonly say: Say;
}): string | undefined {
  const { name: sum, draft, problems, fields } = state;
  const here = problems.filter((problem) => dotted(problem.field) === path);
  if (here.length === 0) return undefined;
  const paths = fields.map((field) => field.path);
  return here
    .map((problem) => problemSentence({ problem, say, sum, paths, units: draft.units, typed: draft.texts[path] }))
    .join(' ');
}

function optionsOf(
  state: SumState,
  field: Extract<LeafField, { kind: 'choice' }>,
  say: Say,
): readonly (Option<string> | OptionGroup<string>)[] {
  const { name: sum, draft } = state;
  const item = (value: string): Option<string> => ({
    value,
    label: optionLabel({ say, sum, path: field.path, value }),
  });
  if (sum === 'measure' && (field.path === 'from' || field.path === 'to')) {
    const from = field.path === 'to' ? (draft.texts['from'] ?? null) : null;
    return unitGroups({ units: field.options, from }).map(({ group, values }) => ({ label: say(`bench:measures.groups.${group}`), options: values.map(item) })); // prettier-ignore
  }
  const isOpen = !field.required && field.assumed === null;
  const isFree =
    sum === 'measure' && !needsIngredient({ from: draft.texts['from'] ?? '', to: draft.texts['to'] ?? '' });
  const none = { value: '', label: isFree ? item('none').label : say('bench:notSaid') };
  return [...(isOpen ? [none] : []), ...field.options.map(item)];
}
