import { isMadeAhead, type ReadyAmount } from '../../../forecast/ready-amount.ts';
import type { Amount } from '../../../make/plan.ts';
import type { Written } from '../../../exchange/written.ts';
import { plainly, type Telling } from './spans.ts';

/** An amount written in its own unit, grams and millilitres first. */
export function amountWritten(
  amount: { readonly unit: Amount['unit']; readonly value: number },
  { say, write }: Telling,
): Written {
  const { unit, value } = amount;
  switch (unit) {
    case 'g':
      return write.grams(value);
    case 'kg':
      return write.kilograms(value);
    case 'mL':
      return write.millilitres(value);
    case 'L':
      return write.litres(value);
    case 'drops':
      return counted(Math.round(value), 'drops');
    case 'packets':
      return counted(Math.round(value * 100) / 100, 'packets');
  }
  function counted(count: number, name: string): Written {
    const words = say(`plan:units.${name}`, { count });
    return { number: String(count), unit: words, text: `${count}\u202F${words}` };
  }
}

/** An amount made ahead is round already: 2.4 kg, not 2.40. */
export function readyWritten(ready: ReadyAmount, telling: Telling): Written {
  const written = amountWritten(ready, telling);
  return isMadeAhead(ready) ? plainly(written, Math.ceil) : written;
}
