import { shoppingList, type ShoppingItem } from '../../../exchange/shopping.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { amountWritten } from './amount-written.ts';
import { plainly, type Telling } from './spans.ts';

export interface ShoppingView {
  readonly items: readonly { readonly id: string; readonly text: string }[];
  /** Words on the carton to look for, and words to leave on the shelf. */
  readonly buy: readonly string[];
  readonly avoid: readonly string[];
}

/** The shopping list in words: milk by its carton, culture by its kind, the rest by weight. */
export function shoppingView(
  input: { readonly plan: Plan; readonly forecast: Forecast | null } & Telling,
): ShoppingView {
  const { plan, say } = input;
  const list = shoppingList(input);
  const { culture } = plan.setup;
  const known = {
    species: say(`plan:options.milk.species.${plan.setup.milk.species}`),
    culture: plan.make.doses.culture === undefined ? '' : say(`plan:cultureKinds.${plan.make.doses.culture.kind}`),
    litres: input.write.litres(culture.packetTreatsL).text,
    form: say(`plan:options.culture.form.${culture.form}`),
  };
  return {
    items: list.items.map((item) => ({
      id: item.id,
      text: say(`plan:shopping.${keyOf(item, plan)}`, {
        ...known,
        amount: written(item, input),
        treats: item.treatsL === undefined ? '' : input.write.litres(item.treatsL).text,
      }),
    })),
    buy: list.carton.buy,
    avoid: list.carton.avoid,
  };
}

/** Culture is bought by its packet, by what a packet nobody has read must treat, or poured from one's own. */
function keyOf(item: ShoppingItem, { setup }: Plan): string {
  if (item.id !== 'culture') return item.id;
  if (setup.culture.bulkPercent !== undefined) return 'culturePoured';
  return item.treatsL === undefined ? 'culture' : 'cultureUnread';
}

function written(item: ShoppingItem, telling: Telling): string {
  const { unit, amount } = item;
  if (unit === 'pairs') return String(amount);
  // What a shop sells is already round: 2.5 kg, not 2.50; 4.5 lb, not 4.41.
  if (telling.write.units === 'metric' && unit !== 'packets') {
    return `${telling.write.number(amount, Number.isInteger(amount) ? 0 : 1)}\u202F${unit}`;
  }
  return plainly(amountWritten({ unit, value: amount }, telling), Math.ceil).text;
}
