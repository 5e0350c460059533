import type { UnitSystem } from '../../../exchange/written.ts';
import { UNITS } from '../../../numbers/units.ts';
import { unitsOf } from './draft.ts';
import type { NumberFact } from './draft-fields.ts';

/** What is printed inside a number's field. */
export function unitSymbol(input: { readonly fact: NumberFact; readonly units: UnitSystem }): string {
  const { fact, units } = input;
  const typed = unitsOf(fact.typed, units);
  if (typed !== null) return UNITS[typed.unit].symbol.replace('US ', '');
  return fact.unit ?? (fact.typed === 'percent' ? '%' : '');
}
