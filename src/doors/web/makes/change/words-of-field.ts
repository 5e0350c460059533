import type { Say } from '../../../../exchange/words.ts';
import { at } from './edit.ts';
import type { Written } from './written.ts';

/** Where a problem stands, as a person would say it: the step by its name, then the field by its label. */
export function wordsOfField(field: string, json: Written, say: Say): string {
  const step = /^steps\[(\d+)\]\.?(.*)$/.exec(field);
  if (step === null) return labelOf(field, say);
  const name = at(json, ['steps', Number(step[1]), 'name']);
  const shown = typeof name === 'string' && name !== '' ? name : say('change:unnamed');
  return say('change:diff.ofStep', { step: `${Number(step[1]) + 1}. ${shown}`, field: labelOf(step[2] ?? '', say) });
}

/** The label of the longest ending of a path that has one; the path itself where none has. */
export function labelOf(field: string, say: Say): string {
  const parts = field
    .replace(/\[\d+\]/g, '')
    .split('.')
    .filter((part) => part !== 'value' && part !== 'of');
  for (let from = 0; from < parts.length; from++) {
    const name = parts.slice(from).join('_');
    const label = say(`change:label.${name}`);
    if (label !== `change:label.${name}` && label !== `label.${name}`) return label;
  }
  return field;
}
