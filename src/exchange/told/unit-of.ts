import { convert, UNITS, type UnitName } from '../../numbers/units.ts';
import type { UnitSystem } from '../written.ts';

/** What stands behind a number of a sum: a unit of the house, which can be turned into the reader's, or only a sign. */
export interface FieldUnit {
  readonly house: UnitName | null;
  readonly symbol: string;
  /** Decimals that the trade writes, where it has a habit. */
  readonly decimals: number | null;
}

const sign = (symbol: string, decimals: number | null = null): FieldUnit => ({ house: null, symbol, decimals });
/** A letter for days is no word that people read. */
export const symbolOf = (unit: UnitName): string => (unit === 'd' ? 'days' : UNITS[unit].symbol.replace('US ', ''));

const house = (unit: UnitName, decimals: number | null = null): FieldUnit => ({
  house: unit,
  symbol: symbolOf(unit),
  decimals,
});

/** Names of the contract whose unit is not in their last letters. */
const NAMED: Readonly<Record<string, FieldUnit>> = {
  dornic: sign('°D'),
  soxhletHenkel: sign('°SH'),
  thorner: sign('°Th'),
  baume: sign('°Bé'),
  drops: sign('drops'),
  monthsStored: sign('months'),
  kgPer100kg: sign('kg per 100 kg'),
  kgPer100L: sign('kg per 100 L'),
  hWPerM2K: sign('W/(m²·K)'),
  waterPerSalt: sign('g per g'),
  waterActivity: sign('', 3),
  gPerM2PerDay: sign('g'),
};

/** By the end of the name, the longer ends first. */
const BY_END: readonly (readonly [RegExp, FieldUnit])[] = [
  [/IMCUPerML$/i, sign('IMCU/mL')],
  [/IMCUPerL$/i, sign('IMCU/L')],
  [/dropsPerML$/i, sign('drops/mL')],
  [/mmolPerL$/i, sign('mmol/L')],
  [/(^g|G|gLactic)PerL(Water|Brine)?$/, sign('g/L')],
  [/KgPerM3$/, sign('kg/m³')],
  [/KJPerKgK$/, sign('kJ/(kg·K)')],
  [/WPerK(StandardError)?$/, sign('W/K')],
  [/^minutesTo\w+$/, house('min')],
  [/^secondsTo\w+$/, house('s')],
  [/(^p|P)H(\d|Fall|Error)?$/, sign('', 2)],
  [/percent/i, sign('%')],
  [/Points$/, sign('points')],
  [/minutes?(At\d+C|AfterRennet)?$/i, house('min')],
  [/seconds?(At\d+C|To\w+|For\w+)?$/i, house('s')],
  [/hours?$/i, house('h')],
  [/days?$/i, house('d')],
  [/MM$/, sign('mmol/L')],
  [/(^m|M)L$/, house('mL')],
  [/(^|[a-z])L$/, house('L')],
  [/(^k|K)g$/, house('kg')],
  [/(^g|[a-z]G)$/, house('g')],
  [/(^m|M)m$/, house('mm')],
  [/(^c|C)m$/, house('cm')],
  [/(^|[a-z])W(StandardError)?$/, sign('W')],
  [/(drop|error|rise|residual)C$/i, house('rise-C')],
  [/(C|CFor\w+)$/, house('C', 1)],
];

/**
 * The unit of a field, read from its name as the calculator contract writes it.
 * @param path `milkL`, `milk.fatPercent`, `readings.0.temperatureC`, `mm.1`
 */
export function unitOfField(path: string): FieldUnit {
  const name =
    path
      .split('.')
      .filter((part) => !/^\d+$/.test(part))
      .at(-1) ?? path;
  return NAMED[name] ?? BY_END.find(([end]) => end.test(name))?.[1] ?? sign('');
}

const US_TYPED: Partial<Record<UnitName, UnitName>> = {
  L: 'us-gallon',
  kg: 'lb',
  C: 'F',
  'rise-C': 'rise-F',
  cm: 'in',
};

/** The unit a reader types a field in; null where the field has none that could be turned. */
export function typedUnit(input: { readonly unit: FieldUnit; readonly units: UnitSystem }): UnitName | null {
  const { unit, units } = input;
  if (unit.house === null) return null;
  return units === 'us' ? (US_TYPED[unit.house] ?? unit.house) : unit.house;
}

/** What is printed inside a field. */
export function typedSymbol(input: { readonly unit: FieldUnit; readonly units: UnitSystem }): string {
  const typed = typedUnit(input);
  return typed === null ? input.unit.symbol : symbolOf(typed);
}

/** A value of the contract in the unit a reader types it in; null where that is the contract's own. */
export function typedValue(input: {
  readonly value: number;
  readonly unit: FieldUnit;
  readonly units: UnitSystem;
}): number | null {
  const { house } = input.unit;
  const to = typedUnit(input);
  return house === null || to === null || to === house ? null : convert({ value: input.value, from: house, to });
}
