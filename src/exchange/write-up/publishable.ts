/** What a make must state before others make it (trade notes, 7.5): each line said, or still missing. */
import type { Make } from '../../make/make.ts';
import { keptAt, neutralDoses } from '../paper/neutral-doses.ts';
import { kilograms, litres, sentence, type Told } from '../paper/step-words.ts';
import type { Seen } from './seen.ts';

/** What only the writer can say. */
export interface WriterSays {
  readonly author: string;
  readonly licence: string;
  /** Height above the sea, m; null where nobody said. */
  readonly altitudeM: number | null;
  /** "Cooking salt without iodine", "citric acid, monohydrate". */
  readonly forms: string;
  readonly tests: string;
}

export interface Stated {
  /** Its words: `writeup:states.<id>`. */
  readonly id: string;
  /** What is stated; null is missing. */
  readonly text: string | null;
}

export function publishable(input: {
  readonly make: Make;
  readonly seen: Seen;
  readonly says: WriterSays;
  /** Words of the pot and what heated it. */
  readonly kit: string | null;
  readonly told: Told;
}): readonly Stated[] {
  const { make, seen, says, kit, told } = input;
  const { say, write } = told;
  const dose = (name: string): string | null => {
    const found = neutralDoses({ make: { ...make, doses: { [name]: Object.entries(make.doses).find(([one]) => one === name)?.[1] } }, volumeL: seen.milkL.middle, told })[0];
    return found === undefined ? null : say('writeup:states.doseFor', { dose: `${found.name}: ${found.value}`, milk: litres(told, seen.milkL.middle) });
  };
  const perL = seen.cheesePerMilkKgPerL;
  const typed = (text: string): string | null => (text.trim() === '' ? null : text.trim());
  const ends = make.steps.filter(({ until }) => until.of.length > 0).length;
  return [
    { id: 'family', text: say(`makes:families.${make.family}`) },
    { id: 'milk', text: [...make.milk.treatments.map((one) => say(`plan:options.milk.treatment.${one}`)), ...make.milk.species.map((one) => say(`plan:options.milk.species.${one}`))].join(', ') },
    { id: 'tested', text: say('writeup:states.testedAs', { count: seen.count, milk: milkText(seen, told) }) },
    ...Object.keys(make.doses).map((name) => ({ id: `dose.${name}`, text: dose(name) })),
    { id: 'forms', text: typed(says.forms) },
    { id: 'tolerance', text: say('writeup:states.toleranceAs', { count: ends, of: make.steps.length, aims: make.aims.length }) },
    { id: 'outside', text: make.steps.some(({ cautions }) => cautions.length > 0) ? say('writeup:states.outsideAs', { count: new Set(make.steps.flatMap(({ cautions }) => cautions)).size }) : null },
    { id: 'kit', text: kit },
    { id: 'altitude', text: says.altitudeM === null ? null : say('writeup:states.altitudeAs', { metres: write.number(says.altitudeM, 0) }) },
    { id: 'yield', text: perL === null ? null : say('writeup:states.yieldAs', { low: kilograms(told, perL.low * 10), high: kilograms(told, perL.high * 10), milk: litres(told, 10) }) },
    { id: 'storage', text: say('writeup:states.storageAs', { days: make.shelfLife.days.value, at: keptAt(make, told), note: sentence(told, make.shelfLife.note) }) },
    { id: 'tests', text: typed(says.tests) },
    { id: 'author', text: typed(says.author) },
    { id: 'version', text: say('writeup:states.versionAs', { version: make.version, from: write.date(seen.fromAt), to: write.date(seen.toAt), context: seen.count === 1 ? 'one' : '' }) },
    { id: 'licence', text: typed(says.licence) },
    { id: 'sources', text: String(make.sources.length) },
  ];
} // prettier-ignore

const milkText = ({ milkL: { low, high } }: Seen, told: Told): string =>
  low === high ? litres(told, low) : told.say('record:span', { low: litres(told, low), high: litres(told, high) });

/** The source that every seen figure names: how often, how much, when, who, under which terms. */
export function sourceText(input: { readonly seen: Seen; readonly says: WriterSays; readonly told: Told }): string {
  const { seen, says, told } = input;
  const { say, write } = told;
  return [
    say('writeup:source.made', { count: seen.count, milk: milkText(seen, told) }),
    say('writeup:source.days', { from: write.date(seen.fromAt), to: write.date(seen.toAt), context: seen.count === 1 ? 'one' : '' }),
    ...(says.author.trim() === '' ? [] : [says.author.trim()]),
    ...(says.altitudeM === null ? [] : [say('writeup:states.altitudeAs', { metres: write.number(says.altitudeM, 0) })]),
    ...(says.forms.trim() === '' ? [] : [says.forms.trim()]),
    ...(says.tests.trim() === '' ? [] : [says.tests.trim()]),
    ...(says.licence.trim() === '' ? [] : [say('writeup:source.licence', { licence: says.licence.trim() })]),
  ].join('; ');
} // prettier-ignore
