/** The get-ready list: what to buy, what is done the evening before, and what is begun when, for one pot or a class. */
import { preparedAmount } from '../../forecast/ready-amount.ts';
import type { Forecast } from '../../forecast/forecast.ts';
import type { Plan } from '../../make/plan.ts';
import { preparationsOf, type TimedPreparation } from '../schedule.ts';
import { shoppingList, type ShoppingItem } from '../shopping.ts';
import { el, type PaperSheet } from './element.ts';
import { head, list, para, section, ticks, type Tick } from './parts.ts';
import { quantityText, sentence, type Told } from './step-words.ts';

/** One pot of the day, planned. */
export interface PotPlan {
  readonly name: string | null;
  readonly plan: Plan;
  readonly forecast: Forecast;
  /** Milliseconds UTC at minute zero. */
  readonly zeroAt: number;
}

const MINUTE_MS = 60_000;

export function getReadySheet(input: { readonly pots: readonly PotPlan[]; readonly told: Told }): PaperSheet {
  const { pots, told } = input;
  const { say, write } = told;
  const [first] = pots;
  const names = [...new Set(pots.map(({ plan }) => plan.make.name))].join(', ');
  const timed = pots.flatMap((pot) => preparationsOf(pot).map((preparation) => ({ pot, preparation })));
  const evening = timed.filter(({ preparation }) => isAhead(preparation));
  const day = timed.filter(({ preparation }) => !isAhead(preparation)).sort((a, b) => atOf(a) - atOf(b));
  const kit = [...new Set(pots.flatMap(({ plan }) => plan.steps.flatMap((step) => step.kit)))];
  return {
    id: 'get-ready',
    title: say('paper:ready.title'),
    head: names,
    isOnePage: false,
    body: [
      head({
        title: say('paper:ready.title'),
        under: say('paper:ready.under', { names, count: pots.length, day: first === undefined ? '' : write.day(first.zeroAt) }),
      }),
      section(say('paper:ready.shopping'), ticks(shopping(pots, told)), ...carton(pots, told)),
      evening.length === 0 ? null : section(say('paper:ready.evening'), ticks(merged(evening, told, pots.length, null))),
      section(
        say('paper:ready.kit'),
        ticks([
          ...kit.map((one) => ({ when: null, what: say(`paper:kit.${one}`, { count: pots.length }), amount: null })),
          { when: null, what: say('paper:ready.thermometer', { count: pots.length }), amount: null },
          ...(pots.some(({ plan }) => plan.setup.pHMeter) ? [{ when: null, what: say('paper:ready.meter'), amount: null }] : []),
        ]),
      ),
      section(say('paper:ready.clean'), list([say('paper:ready.sanitise'), say('paper:ready.hands')])),
      section(say('paper:ready.day'), ticks(merged(day, told, pots.length, (one) => write.clock(atOf(one)))), para(say('plan-text:ready.enough'), 'paper-small')),
    ].filter((one) => one !== null),
  };
} // prettier-ignore

interface Timed {
  readonly pot: PotPlan;
  readonly preparation: TimedPreparation;
}

const isAhead = ({ isEveningBefore, isTooLate }: TimedPreparation): boolean => isEveningBefore || isTooLate;
const atOf = ({ pot, preparation }: Timed): number => pot.zeroAt + preparation.startMin * MINUTE_MS;

/** The same thing for several pots is one line, from the first pot's time to the last one's, with what each takes. */
function merged(timed: readonly Timed[], told: Told, of: number, when: ((one: Timed) => string) | null): readonly Tick[] {
  const lines = new Map<string, { what: string; amount: string; times: string[]; pots: string[] }>();
  for (const one of timed) {
    const { pot, preparation } = one;
    const what = sentence(told, preparation.preparation.what);
    const ready = preparedAmount({ plan: pot.plan, forecast: pot.forecast, step: preparation.step, preparation: preparation.preparation });
    const amount = ready === null ? '' : quantityText({ unit: ready.unit, value: ready.value, told });
    const key = `${preparation.id}|${what}|${amount}`;
    const line = lines.get(key) ?? { what, amount, times: [], pots: [] };
    lines.set(key, { ...line, times: [...line.times, ...(when === null ? [] : [when(one)])], pots: [...line.pots, pot.name ?? ''] });
  }
  return [...lines.values()].map(({ what, amount, times, pots }) => ({
    when: spanText(times),
    what: of === 1 || pots.length === of || pots[0] === '' ? what : told.say('paper:ready.forPot', { what, pot: pots.join(', ') }),
    amount: amount === '' ? null : told.say('paper:ready.each', { count: pots.length, amount }),
  }));
} // prettier-ignore

/** The first time and the last, told once where they are the same; null of none. */
export function spanText(times: readonly string[]): string | null {
  const [first] = times;
  const last = times.at(-1);
  return first === undefined || last === undefined ? null : first === last ? first : `${first}–${last}`;
}

/** One shopping list for all pots: amounts of the same thing added up. */
function shopping(pots: readonly PotPlan[], told: Told): readonly Tick[] {
  const sums = new Map<string, { item: ShoppingItem; amount: number; pot: PotPlan }>();
  for (const pot of pots)
    for (const item of shoppingList(pot).items) {
      if (item.id === 'rennet-water') continue;
      const key = `${item.id} ${item.unit} ${item.id === 'culture' ? (pot.plan.make.doses.culture?.kind ?? '') : ''}`;
      const before = sums.get(key);
      sums.set(key, { item, pot, amount: (before?.amount ?? 0) + item.needed });
    }
  return [...sums.values()].map(({ item, amount, pot }) => ({
    when: null,
    what: shopText(item, pot.plan, told),
    amount: boughtText(item, pots.length === 1 ? item.amount : roundedUp(amount, item), told),
  }));
}

const SPARE = 1.05; // as the single list's milk: common practice (no source)
const roundedUp = (needed: number, { unit, id }: ShoppingItem): number => Math.ceil(id === 'milk' ? needed * SPARE : unit === 'packets' ? needed - 1e-9 : needed); // prettier-ignore

/** What a shop calls otherwise than the pot does: which salt, which vinegar, for what. */
const AS_BOUGHT: ReadonlySet<string> = new Set(['rennet', 'calcium', 'salt', 'vinegar', 'brine-calcium', 'ice', 'gloves']); // prettier-ignore

function shopText({ id }: ShoppingItem, plan: Plan, { say }: Told): string {
  if (id === 'milk') return say('paper:ready.milk', { species: say(`plan:options.milk.species.${plan.setup.milk.species}`), treatment: say(`plan:options.milk.treatment.${plan.setup.milk.treatment}`) }); // prettier-ignore
  if (id === 'culture') return say(`plan:cultureKinds.${plan.make.doses.culture?.kind ?? 'mesophilic'}`);
  return say(AS_BOUGHT.has(id) ? `plan-text:shopping.${id}` : `plan:amounts.${id}`);
}

/** What a shop sells is round already: 2 kg, not 2.00 kg. */
function boughtText({ unit }: ShoppingItem, amount: number, told: Told): string {
  if (unit !== 'pairs' && unit !== 'packets' && told.write.units === 'metric' && !told.isInBoth)
    return `${told.write.number(amount, Number.isInteger(amount) ? 0 : 1)}\u202F${unit}`;
  return unit === 'pairs'
    ? told.say('plan-text:amounts.pairs', { count: amount })
    : quantityText({ unit, value: amount, told });
}

function carton(pots: readonly PotPlan[], { say }: Told) {
  const words = (kind: 'buy' | 'avoid'): string => [...new Set(pots.flatMap(({ plan }) => plan.make.milk.cartonWords[kind]))].join(', '); // prettier-ignore
  return [
    el('p', '', say('plan-text:shopping.buy', { words: words('buy') })),
    el('p', '', say('plan-text:shopping.avoid', { words: words('avoid') })),
  ];
}
