import type { Say } from '../../../exchange/words.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { factOf, type FactPath } from './draft-fields.ts';
import { unitSymbol } from './unit-symbol.ts';

/** A typed or chosen fact in words: the number with its unit, or the chosen word; a unit that was typed stands. */
export function factText(input: {
  readonly path: FactPath;
  readonly text: string;
  readonly units: UnitSystem;
  readonly say: Say;
}): string {
  const { path, text, units, say } = input;
  const fact = factOf(path);
  if (fact.kind === 'choice') {
    return text === 'yes' || text === 'no' ? say(`plan:options.${text}`) : say(`plan:options.${path}.${text}`);
  }
  const unit = unitSymbol({ fact, units });
  return text.trim() === '' ? '' : /[a-z°%]/i.test(text) || unit === '' ? text : `${text}\u00A0${unit}`;
}
