/** Quantities in both unit systems at once, the reader's own first: "37 °C (99 °F)". */
import { convert } from '../../numbers/units.ts';
import { usVolume } from '../../numbers/us-volume.ts';
import type { Language } from '../words.ts';
import type { UnitSystem } from '../written.ts';

/** The same quantity twice. `text` is the first with the second in brackets. */
export interface Pair {
  readonly first: string;
  readonly second: string;
  readonly text: string;
}

export interface BothUnits {
  readonly units: UnitSystem;
  readonly temperature: (temperatureC: number, digits?: number) => Pair;
  readonly volume: (volumeL: number) => Pair;
  readonly mass: (massKg: number) => Pair;
  readonly depth: (depthCm: number) => Pair;
}

/**
 * Writes in both systems.
 * @param units which stands first
 * @param language decides the decimal sign and the words for spoons
 */
export function bothUnits(units: UnitSystem, language: Language = 'en-GB'): BothUnits {
  const { decimal, kitchen } = SIGNS[language];
  const said = (text: string): string => kitchen(text.replace(/(?<=\d)\.(?=\d)/, decimal));
  const pair = (metric: string, us: string): Pair => {
    const [first, second] = units === 'us' ? [said(us), said(metric)] : [said(metric), said(us)];
    return { first, second, text: `${first} (${second})` };
  };
  return {
    units,
    temperature: (temperatureC, digits = 0) =>
      pair(
        `${temperatureC.toFixed(digits)} °C`,
        `${convert({ value: temperatureC, from: 'C', to: 'F' }).toFixed(0)} °F`,
      ),
    volume: (volumeL) => pair(metricVolume(volumeL), usText(volumeL)),
    mass: (massKg) => pair(metricMass(massKg), usMass(massKg)),
    depth: (depthCm) =>
      pair(`${depthCm.toFixed(1)} cm`, `${convert({ value: depthCm, from: 'cm', to: 'in' }).toFixed(1)} in`),
  };
}

const same = (text: string): string => text;
const SIGNS: Readonly<Record<Language, { readonly decimal: string; readonly kitchen: (text: string) => string }>> = {
  'en-GB': { decimal: '.', kitchen: same },
  'en-US': { decimal: '.', kitchen: same },
  es: { decimal: ',', kitchen: (text) => text.replace(/tsp$/, 'cdta').replace(/fl oz$/, 'oz líq.') },
};

const TEASPOONS_BELOW_L = 0.03; // below two tablespoons one measures by the teaspoon: our own choice
const POUNDS_FROM_KG = 0.2; // below half a pound scales show ounces: our own choice

function metricVolume(volumeL: number): string {
  if (volumeL >= 1) return `${trimmed(volumeL.toFixed(1))} L`;
  const ml = volumeL * 1000;
  return `${ml.toFixed(ml >= 10 ? 0 : ml >= 1 ? 1 : 2)} mL`;
}

function usText(volumeL: number): string {
  const said = usVolume(volumeL);
  if (said !== null) return `${said.value.toFixed(said.digits)} ${said.unit === 'us-gallon' ? 'gal' : 'qt'}`;
  return volumeL < TEASPOONS_BELOW_L
    ? `${kitchenFigure(convert({ value: volumeL, from: 'L', to: 'us-teaspoon' }))} tsp`
    : `${convert({ value: volumeL, from: 'L', to: 'us-fluid-ounce' }).toFixed(1)} fl oz`;
}

function metricMass(massKg: number): string {
  if (massKg >= 1) return `${trimmed(massKg.toFixed(massKg >= 10 ? 1 : 2))} kg`;
  const g = massKg * 1000;
  return `${g >= 100 ? g.toFixed(0) : g >= 10 ? trimmed(g.toFixed(1)) : trimmed(g.toFixed(2))} g`;
}

function usMass(massKg: number): string {
  return massKg >= POUNDS_FROM_KG
    ? `${convert({ value: massKg, from: 'kg', to: 'lb' }).toFixed(1)} lb`
    : `${convert({ value: massKg, from: 'kg', to: 'oz' }).toFixed(2)} oz`;
}

/** To two figures: nobody spoons out more. */
const kitchenFigure = (value: number): string => String(Number(value.toPrecision(2)));

/** Without zeros that say nothing: 3.50 is 3.5, 12.0 is 12. */
const trimmed = (digits: string): string => digits.replace(/\.?0+$/, '');
