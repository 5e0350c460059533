import { convert } from '../numbers/units.ts';
import type { UnitSystem } from './quantity.ts';

/**
 * Temperatures inside a make's sentences, in the reader's units: "36.5 to 37.5 °C" becomes "98 to 100 °F".
 * Makes are written in °C only, so that there is one figure and no rounded second column. A difference is written with
 * both, "1 °C (1.8 °F)", because it converts without the 32; the reader gets the one of the two that is theirs.
 */
export function sentenceInUnits(input: { readonly text: string; readonly units: UnitSystem }): string {
  const text = input.text.replace(DIFFERENCE, input.units === 'us' ? '$2' : '$1');
  if (input.units !== 'us') return text;
  return text.replace(
    /(\d+(?:\.\d+)?)(?:( to | or |-)(\d+(?:\.\d+)?))? °C/g,
    (_whole, low: string, joint: string | undefined, high: string | undefined) =>
      high === undefined || joint === undefined
        ? `${fahrenheitText(low)} °F`
        : `${fahrenheitText(low)}${joint}${fahrenheitText(high)} °F`,
  );
}

const DIFFERENCE = /(\d+(?:\.\d+)? °C) \((\d+(?:\.\d+)? °F)\)/g;

const fahrenheitText = (celsius: string): string => convert({ value: Number(celsius), from: 'C', to: 'F' }).toFixed(0);
