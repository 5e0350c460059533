/** Units to choose from, in groups, and only those that the first can be turned into. */
import { isUnitName, sameDimension, UNITS, type Dimension, type UnitName } from '../../../numbers/units.ts';

export interface UnitGroup {
  /** Key of the group's name in the catalogue. */
  readonly group: string;
  readonly values: readonly string[];
}

const GROUP_ORDER = ['metric', 'us', 'imperial', 'australia', 'mass', 'temperature', 'temperature-difference', 'length', 'pressure', 'duration']; // prettier-ignore

/** Drops and spoons of a region are volumes, though `units.ts` does not have them all. */
const houseUnit = (name: string): UnitName => (isUnitName(name) ? name : 'mL');

const dimensionOf = (name: string): Dimension => UNITS[houseUnit(name)].dimension;

function groupOf(name: string): string {
  if (dimensionOf(name) !== 'volume') return dimensionOf(name);
  if (name.startsWith('us-')) return 'us';
  if (name.startsWith('imperial-')) return 'imperial';
  if (name.startsWith('australia')) return 'australia';
  return 'metric';
}

/** True where the sum can turn one into the other: the same kind, or a volume and a mass. */
export function canBecome(input: { readonly from: string; readonly to: string }): boolean {
  const kinds = [dimensionOf(input.from), dimensionOf(input.to)];
  return (
    sameDimension({ from: houseUnit(input.from), to: houseUnit(input.to) }) ||
    (kinds.includes('volume') && kinds.includes('mass'))
  );
}

/** True where what is measured decides the answer: a spoon of salt is no spoon of culture. */
export const needsIngredient = (input: { readonly from: string; readonly to: string }): boolean =>
  dimensionOf(input.from) !== dimensionOf(input.to) && canBecome(input);

/** The units by group, in the order that people look for them. */
export function unitGroups(input: { readonly units: readonly string[]; readonly from: string | null }): UnitGroup[] {
  const { from } = input;
  const shown = input.units.filter((unit) => from === null || canBecome({ from, to: unit }));
  return GROUP_ORDER.map((group) => ({ group, values: shown.filter((unit) => groupOf(unit) === group) })).filter(
    ({ values }) => values.length > 0,
  );
}
