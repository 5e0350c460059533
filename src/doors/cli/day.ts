/** `vatside day`: several makes in one kitchen, by the clock. */
import { dayText } from '../../exchange/day-text.ts';
import { readTyped } from '../../exchange/typed-quantity.ts';
import { openWriter } from '../../exchange/written.ts';
import type { DayInput, DayPot } from '../../forecast/day/day.ts';
import { planDay } from '../../forecast/day/plan-day.ts';
import { simulate } from '../../forecast/simulate.ts';
import type { Plan } from '../../make/plan.ts';
import { planMake } from '../../make/planning.ts';
import { sayIn } from './catalogues.ts';
import { DAY_HELP } from './day-help.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { makeIds, readMake } from './make-files.ts';
import { ANSWER_OPTIONS, answersFrom } from './plan-answers.ts';
import { wishFrom } from './plan-when.ts';
import { wholeNumber, WIDTH } from './plan.ts';
import { EXIT, UsageError, type World } from './world.ts';

const text = { type: 'string' } as const;
const { milk: _milk, ...ANSWERS } = ANSWER_OPTIONS;
const OPTIONS = {
  ...ANSWERS,
  from: text, to: text, date: text, hands: text, burners: text, kettles: text, 'kettle-litres': text, bowls: text, presses: text,
  'brine-tubs': text, pupils: text, cold: text, seed: text, members: text, ...LANGUAGE_OPTIONS,
  json: { type: 'boolean' }, text: { type: 'boolean' }, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore

const MEMBERS = 200;
const MOST_POTS = 8;
const MINUTE_MS = 60_000;
const USUAL = { hands: 1, burners: 2, kettles: 1 } as const; // a kitchen of which nothing is said: our own choice

/** Plans a day and prints it, or the same as JSON. */
export function dayCommand(world: World, args: readonly string[]): number {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'day' });
  if (values.help === true) {
    world.out(DAY_HELP);
    return EXIT.answered;
  }
  if (positionals.length === 0) throw new UsageError(`name what is made: vatside day stretched-ball=12Lx2 --from 09:00. Makes: ${makeIds().join(', ')}.`); // prettier-ignore
  const seed = wholeNumber('seed', values.seed) ?? 1;
  const members = wholeNumber('members', values.members) ?? MEMBERS;
  const language = languageOf(world, values);
  const wish = wishFrom({ start: values.from ?? values.to, doneBy: undefined, date: values.date, now: world.now() }); // prettier-ignore
  const zeroAt = new Date(wish.at).setHours(0, 0, 0, 0);
  const minuteOf = (time: string): number => (wishFrom({ start: time, doneBy: undefined, date: dateText(zeroAt), now: 0 }).at - zeroAt) / MINUTE_MS; // prettier-ignore
  const fromMin = values.from === undefined && values.to !== undefined ? null : (wish.at - zeroAt) / MINUTE_MS;
  const toMin = values.to === undefined ? null : minuteOf(values.to);
  const madeFromMin = values.cold === undefined ? null : values.cold.startsWith('-') ? minuteOf(values.cold.slice(1)) - 24 * 60 : minuteOf(values.cold); // prettier-ignore
  const nowMin = Math.ceil((world.now() - zeroAt) / MINUTE_MS);
  const wished = positionals.map(wishedOf);
  if (wished.reduce((sum, { pots }) => sum + pots, 0) > MOST_POTS) throw new UsageError(`at most ${MOST_POTS} pots a day.`); // prettier-ignore
  const told: { readonly id: string; readonly name: string; readonly makeName: string; readonly plan: Plan }[] = [];
  const pots = wished.flatMap(({ named, litres, pots: count }) => {
    const make = readMake(world, named);
    const answers = answersFrom({ ...values, milk: litres });
    const plan = planMake({ make, answers });
    const foreseen = simulate({ plan, seed, members });
    return Array.from({ length: count }, (): DayPot => {
      const id = `pot-${told.length + 1}`;
      told.push({ id, name: String(told.length + 1), makeName: make.name, plan });
      const cold = madeFromMin === null ? {} : { keptCold: { madeFromMin, workedFromMin: fromMin ?? 0 } };
      return { id, makeId: make.id, steps: plan.steps, foreseen, ...cold };
    });
  });
  const count = (flag: 'hands' | 'burners' | 'kettles' | 'bowls' | 'presses' | 'brine-tubs' | 'pupils'): number | undefined => wholeNumber(flag, values[flag]); // prettier-ignore
  const pupils = count('pupils') ?? 0;
  const some = (name: 'bowl' | 'press' | 'brine-tub', value: number | undefined): object => (value === undefined ? {} : { [name]: value }); // prettier-ignore
  const input: DayInput = {
    pots,
    kit: {
      hands: Math.max(1, count('hands') ?? USUAL.hands), burner: count('burners') ?? USUAL.burners, kettle: count('kettles') ?? USUAL.kettles,
      ...some('bowl', count('bowls')), ...some('press', count('presses')), ...some('brine-tub', count('brine-tubs')),
      ...(values['kettle-litres'] === undefined ? {} : { kettleLitres: Number(values['kettle-litres']) }),
      ...(pupils > 0 && fromMin !== null && toMin !== null ? { more: { hands: pupils, fromMin, toMin } } : {}),
    },
    hours: { fromMin, toMin, nowMin },
  }; // prettier-ignore
  const plan = planDay(input);
  if (values.json === true) {
    world.out(`${JSON.stringify({ zeroAt: new Date(zeroAt).toISOString(), kit: input.kit, hours: input.hours, makes: told.map(({ id, plan: of }) => ({ potId: id, makeId: of.make.id, milkL: of.setup.milk.volumeL })), ...plan }, null, 2)}\n`); // prettier-ignore
    return EXIT.answered;
  }
  const units = told[0]?.plan.setup.units === 'us' ? 'us' : 'metric';
  world.out(dayText({ plan, zeroAt, makeNames: new Map(told.map(({ makeName, plan: of }) => [of.make.id, makeName])),
      say: sayIn(language), write: openWriter({ language, units }), width: Math.min(Math.max(world.columns ?? WIDTH.usual, WIDTH.least), WIDTH.most), pots: told.map(({ id, name, makeName, plan: of }) => ({ id, name, makeName, makeId: of.make.id, steps: of.steps })) })); // prettier-ignore
  return EXIT.answered;
}

const dateText = (at: number): string => {
  const day = new Date(at);
  return `${day.getFullYear()}-${String(day.getMonth() + 1).padStart(2, '0')}-${String(day.getDate()).padStart(2, '0')}`;
};

/** "stretched-ball=12Lx2": which make, how much milk a pot, how many pots. */
function wishedOf(words: string): { readonly named: string; readonly litres: string; readonly pots: number } {
  const match = /^([^=]+)=(.+?)(?:x(\d))?$/.exec(words);
  const [, named, litres, pots] = match ?? [];
  if (named === undefined || litres === undefined) throw new UsageError(`"${words}": expected a make, its milk and how many pots, as stretched-ball=12Lx2.`); // prettier-ignore
  const read = readTyped({ text: litres, field: 'milk.volumeL', unit: 'L', into: 'L' });
  if ('problem' in read || Number(pots ?? 1) < 1) throw new UsageError(`"${words}": the milk of one pot is said as 12L or 3gal.`); // prettier-ignore
  return { named, litres, pots: Number(pots ?? 1) };
}
