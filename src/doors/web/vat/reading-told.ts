import { displayValue, type UnitSystem } from '../../../make/quantity.ts';
import { beyondOf, type ExpectedReading } from '../chart/expected-reading.ts';
import type { PadQuantity } from '../pad/pad-model.ts';
import type { PadReading } from '../pad/pad-screen.tsx';
import type { Entry } from './actions.ts';
import type { Told } from './use-noting.ts';
import type { Telling } from './said.ts';

/** What is said after a reading was kept: the number, what was expected, and a polite doubt where it is far off. */
export function readingTold(input: {
  readonly reading: PadReading;
  readonly entries: readonly Entry[];
  readonly at: number;
  readonly expected: ExpectedReading | null;
  readonly telling: Telling;
}): Told {
  const { reading, entries, at, expected, telling } = input;
  const { say, write } = telling;
  const { quantity } = reading;
  const kept = entries.find((entry) => entry.kind === 'reading')?.body;
  const value = quantity === 'temperatureC' && kept !== undefined ? kept.value : reading.value;
  const text = (shown: number): string => shownText({ ...input, quantity, units: reading.units, value: shown });
  const said = say('vat:pad.saved', {
    quantity: nameOf(reading, telling),
    value: text(value),
    at: write.clock(at),
  });
  const corrected = value === reading.value ? '' : ` ${say('vat:pad.corrected', { read: text(reading.value), offset: write.number(reading.value - value, 1) })}.`; // prettier-ignore
  if (expected === null) return { said: said + corrected, expected: null, doubt: null, reads: quantity };
  const beyond = beyondOf(value, expected);
  const doubt =
    beyond === null
      ? null
      : say(beyond < 0 ? 'vat:pad.beyondLow' : 'vat:pad.beyondHigh', {
          value: text(value),
          by: write.number(
            Math.abs(beyond) * (quantity === 'temperatureC' && reading.units === 'us' ? 1.8 : 1),
            quantity === 'pH' ? 2 : 1,
          ),
        });
  return {
    said: said + corrected,
    expected: say('vat:pad.expected', { low: text(expected.p5), high: text(expected.p95) }),
    doubt,
    reads: quantity,
  };
}

/** What was read, in words: the temperature of the room is not that of the curd. */
function nameOf({ quantity, sample }: PadReading, { say }: Telling): string {
  const isOther = sample === 'room' || sample === 'water' || sample === 'brine';
  return say(quantity === 'temperatureC' && isOther ? `vat:pad.of.${sample}` : `vat:pad.quantity.${quantity}`);
}

function shownText(input: {
  readonly quantity: PadQuantity;
  readonly value: number;
  readonly units: UnitSystem;
  readonly telling: Telling;
}): string {
  const shown = displayValue({ quantity: input.quantity, value: input.value, units: input.units });
  const number = input.telling.write.number(shown.value, shown.decimals);
  return shown.symbol === '' ? number : `${number}\u202F${shown.symbol}`;
}
