/** What cannot be, or is hardly meant, among the maker's answers. Found all at once, each with what would do. */
import type { Problem } from '../numbers/validity.ts';
import { schemaProblems, valueAt } from './problems.ts';
import type { Species } from './make.ts';
import { judgeValue, type Meant, type QuantityName } from './quantity.ts';
import { answersSchema, type Answers } from './setup.ts';

/** Which quantity each numeric answer is, by its path. */
const ANSWER_QUANTITIES: Readonly<Record<string, QuantityName>> = {
  'milk.volumeL': 'milkVolumeL',
  'milk.fatPercent': 'fatPercent',
  'milk.proteinPercent': 'proteinPercent',
  'milk.pH': 'milkPH',
  'milk.temperatureC': 'milkTemperatureC',
  'culture.packetTreatsL': 'packetTreatsL',
  'culture.packetMassG': 'packetMassG',
  'culture.packetFraction': 'packetFraction',
  'culture.bulkPercent': 'bulkPercent',
  'rennet.strengthImcuPerMl': 'rennetImcuPerMl',
  'rennet.testedSpanImcuPerMl.low': 'testedImcuPerMl',
  'rennet.testedSpanImcuPerMl.high': 'testedImcuPerMl',
  'rennet.monthsStored': 'monthsStored',
  'rennet.dropsPerMl': 'dropsPerMl',
  'calcium.solutionPercent': 'calciumSolutionPercent',
  'pot.volumeL': 'potVolumeL',
  'pot.insideMm': 'insideMm',
  'pot.massKg': 'potMassKg',
  'pot.heaterW': 'heaterW',
  'pot.lossWPerK': 'lossWPerK',
  'room.temperatureC': 'roomC',
  'instruments.thermometerErrorC': 'thermometerErrorC',
  pieceG: 'pieceG',
};

/** What to do where a slip of the finger does not explain the value. */
const REMEDIES: Readonly<Record<string, string>> = {
  'milk.volumeL': 'Give how much milk goes into the pot.',
  'milk.pH': 'Milk at this pH is spoiled or the meter is off; leave it out if you have not measured it.',
  'culture.packetTreatsL': 'Give how much milk the packet is stated for, or leave it out if it does not say.',
  'rennet.strengthImcuPerMl': 'Leave it out if the bottle does not say; the plan then shows a range.',
};

/** Fat of milk as it comes from the animal, %. What a slip of the point may have meant lies in it, or is skimmed. */
const WHOLE_MILK_FAT: Readonly<Record<Species, { readonly whose: string; readonly low: number; readonly high: number }>> = {
  cow: { whose: "Cow's", low: 3, high: 6 }, // 101 milks of 3.1 to 6.4 % (Watson & Tittsler 1961, J. Dairy Sci. 44:416, seen)
  goat: { whose: "Goat's", low: 3, high: 6 }, // common practice (no source); mean 3.97 (Mahmood & Usman 2010, Pakistan J. Nutrition 9:1192, seen)
  sheep: { whose: "Ewe's", low: 5, high: 10.5 }, // up to 10.5 (Thom & Fisk 1918, table V, seen); low end common practice (no source)
  buffalo: { whose: 'Buffalo', low: 6, high: 10 }, // common practice (no source); mean 7.97 (Mahmood & Usman 2010, seen)
}; // prettier-ignore
const SKIMMED_TO_PERCENT = 1; // common practice (no source): the leanest carton that anybody sets with rennet

const WARM_FROM_THE_ANIMAL_C = 39; // body temperature of cow and goat 38.5-39 °C; common practice (no source)

/** The answers as read, or everything that is wrong with them. */
export type AnswersRead = { readonly answers: Answers } | { readonly problems: readonly Problem[] };

/**
 * Reads unread answers and checks every number against what is possible and what is likely.
 * @returns the answers, or all problems together: wrong types, impossible numbers, likely slips, contradictions
 */
export function readAnswers(json: unknown): AnswersRead {
  const parsed = answersSchema.safeParse(json);
  const numbers = numberProblems(json);
  if (!parsed.success) {
    const known = new Set(numbers.map((problem) => problem.field));
    const read = schemaProblems({
      issues: parsed.error.issues,
      json,
      whole: 'answers',
      remedy: 'Leave it out if you do not know.',
    });
    return { problems: [...numbers, ...read.filter((problem) => !known.has(problem.field))] };
  }
  const problems = [...numbers, ...contradictions(parsed.data)];
  return problems.length > 0 ? { problems } : { answers: parsed.data };
}

function numberProblems(json: unknown): Problem[] {
  return Object.entries(ANSWER_QUANTITIES).flatMap(([field, quantity]) => {
    const value = valueAt({ json, path: field.split('.') });
    return typeof value === 'number' ? numberProblem({ field, quantity, value, json }) : [];
  });
}

function numberProblem(input: {
  readonly field: string;
  readonly quantity: QuantityName;
  readonly value: number;
  readonly json: unknown;
}): Problem[] {
  const { field, value, json } = input;
  const typed = judgeValue(input);
  if (typed.verdict === 'accepted') return [];
  if (typed.verdict === 'refused') return [{ ...typed.problem, remedy: remedyFor({ field, json, ...typed }) }];
  if (typed.meant === null || isConfirmed({ json, field }) || isFreshFromTheAnimal({ json, field, value })) return [];
  if (isTested({ json, field })) return [];
  return [
    {
      code: 'contradiction',
      field,
      value,
      expected: 'a usual value, or this one confirmed',
      remedy: isMisreadCelsius({ json, meant: typed.meant })
        ? `${CHECK} If it is right, confirm it.`
        : `${typed.meant.text} If ${value} is right, confirm it.`,
    },
  ];
}

const CHECK = 'Check the number and its unit.';

/** What would do instead of a value that cannot be. */
function remedyFor(input: {
  readonly field: string;
  readonly json: unknown;
  readonly problem: Problem;
  readonly meant: Meant | null;
}): string {
  const { field, json, problem, meant } = input;
  if (field === 'milk.fatPercent') return fatRemedy({ json, meant });
  if (meant !== null) return isMisreadCelsius({ json, meant }) ? CHECK : meant.text;
  return REMEDIES[field] ?? problem.remedy;
}

/** Who types Fahrenheit has not typed it for Celsius. */
const isMisreadCelsius = (input: { readonly json: unknown; readonly meant: Meant }): boolean =>
  input.meant.slip === 'fahrenheit' && valueAt({ json: input.json, path: ['units'] }) === 'us';

/** The slip of the point where that is a fat this animal's milk can have, else what it has. */
function fatRemedy(input: { readonly json: unknown; readonly meant: Meant | null }): string {
  const species = valueAt({ json: input.json, path: ['milk', 'species'] });
  const { whose, low, high } = WHOLE_MILK_FAT[isSpecies(species) ? species : 'cow'];
  const { meant } = input;
  if (meant !== null && meant.value >= SKIMMED_TO_PERCENT && meant.value <= high) return meant.text;
  return `${whose} milk has ${low} to ${high} % of fat, skimmed milk less. Give what the carton says, or leave it out.`;
}

const isSpecies = (value: unknown): value is Species =>
  typeof value === 'string' && Object.hasOwn(WHOLE_MILK_FAT, value);

function isConfirmed(input: { readonly json: unknown; readonly field: string }): boolean {
  const confirmed = valueAt({ json: input.json, path: ['confirmed'] });
  return Array.isArray(confirmed) && confirmed.includes(input.field);
}

/** Raw milk may come warm from milking; bought milk does not. */
function isFreshFromTheAnimal(input: {
  readonly json: unknown;
  readonly field: string;
  readonly value: number;
}): boolean {
  return (
    input.field === 'milk.temperatureC' &&
    input.value <= WARM_FROM_THE_ANIMAL_C &&
    valueAt({ json: input.json, path: ['milk', 'treatment'] }) === 'raw'
  );
}

/** A weak bottle is what a cup test finds, not a slip of the finger. */
const isTested = (input: { readonly json: unknown; readonly field: string }): boolean =>
  input.field === 'rennet.strengthImcuPerMl' &&
  valueAt({ json: input.json, path: ['rennet', 'testedSpanImcuPerMl'] }) !== undefined;

const contradictions = (answers: Answers): Problem[] => [...potProblems(answers), ...testProblems(answers)];

function testProblems({ rennet }: Answers): Problem[] {
  const span = rennet?.testedSpanImcuPerMl;
  if (span === undefined) return [];
  const strength = rennet?.strengthImcuPerMl;
  if (strength !== undefined && span.low < strength && strength < span.high) return [];
  return [
    {
      code: strength === undefined ? 'missing' : 'contradiction',
      field: 'rennet.strengthImcuPerMl',
      value: strength,
      unit: 'IMCU/mL',
      expected: `the strength that the cup test found, between ${span.low} and ${span.high} IMCU/mL`,
      remedy: 'Give strength and span as the test gave them, or leave out the span for a strength from a label.',
    },
  ];
}

function potProblems(answers: Answers): Problem[] {
  const potL = answers.pot?.volumeL;
  const milkL = answers.milk.volumeL;
  if (potL === undefined || milkL < potL) return [];
  return [
    {
      code: 'contradiction',
      field: 'pot.volumeL',
      value: potL,
      unit: 'L',
      expected: `more than the ${milkL} L of milk`,
      remedy: `Take a larger pot, make ${Math.floor(potL * 0.85 * 2) / 2} L, or use two pots.`,
    },
  ];
}
