/**
 * What each make sets, to stand beside the published ranges of its family: read from the make file as it is written, nothing
 * simulated, but for the minutes to the cut, which follow from its rennet, warmth and fleck times by the clotting model.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { parseMake, type Aim, type Make } from '../../../src/make/make.ts';
import type { Condition, Step, Verb } from '../../../src/make/step.ts';
import { clottingTime } from '../../../src/science/coagulation.ts';
import { readPublished, type PublishedValues } from '../rows.ts';

const FOLDER = new URL('../../../makes/', import.meta.url);

/** Every make there is. */
export const MAKES: ReadonlyMap<string, Make> = new Map(
  readdirSync(FOLDER)
    .filter((file) => file.endsWith('.json'))
    .map((file) => {
      const make = parseMake(JSON.parse(readFileSync(new URL(file, FOLDER), 'utf8')));
      return [make.id, make];
    }),
);

type Kind = Condition['kind'];
type Setting = Exclude<keyof Step['set'], 'ingredient' | 'stirring' | 'downToCurd' | 'shape' | 'drainIn' | 'rind'>;

const MINUTES_PER_HOUR = 60;
const MILK_KG_PER_L = 1.03; // whole milk at 20 °C
const USUAL_RENNET_PH = 6.55; // sweet milk half an hour after its culture
const LEAVES_WHEY: readonly Verb[] = ['drain', 'scoop'];

const steps = (make: Make, ...verbs: Verb[]): readonly Step[] => make.steps.filter(({ verb }) => verbs.includes(verb));
const gel = (make: Make): Step | undefined => make.steps.find(({ id, verb }) => verb === 'set' || id === 'set');
const settings = (make: Make, verb: Verb, key: Setting): readonly number[] =>
  steps(make, verb).flatMap(({ set }) => set[key]?.value ?? []);
const first = (make: Make, verb: Verb, key: Setting): number | null => settings(make, verb, key)[0] ?? null;
const sum = (numbers: readonly number[]): number | null =>
  numbers.length === 0 ? null : numbers.reduce((total, one) => total + one, 0);

/** The figure of an end condition of a step; null where it has no such end. */
function ends(step: Step | undefined, kind: Kind, sample?: string): number | null {
  for (const condition of step?.until.of ?? []) {
    if (condition.kind !== kind) continue;
    if (condition.kind === 'time') return condition.minutes.value;
    if (condition.kind === 'days') return condition.days.value;
    if (condition.kind === 'flocculation') return condition.multiplier.value;
    if (condition.kind === 'pH' && condition.sample === sample) return condition.at.value;
  }
  return null;
}

const minutesOf = (make: Make, ...verbs: Verb[]): number | null =>
  sum(steps(make, ...verbs).flatMap((step) => ends(step, 'time') ?? []));

const aim = (make: Make, quantity: Aim['quantity'], isAtEnd: boolean): number | null =>
  make.aims.find((one) => one.quantity === quantity && (one.moment === 'finished') === isAtEnd)?.aim ?? null;

/** pH at which the whey, or the curd in it, is drained. */
function drainPH(make: Make, sample: 'whey' | 'curd'): number | null {
  const until = make.steps.findIndex(({ verb }) => LEAVES_WHEY.includes(verb));
  const inWhey = make.steps.slice(make.steps.findIndex(({ verb }) => verb === 'cut') + 1, until);
  return inWhey.map((step) => ends(step, 'pH', sample)).find((pH) => pH !== null) ?? null;
}

function setMinutes(make: Make): number | null {
  const step = gel(make);
  const multiplier = ends(step, 'flocculation');
  const { rennet, calcium } = make.doses;
  if (multiplier === null || rennet === undefined || step === undefined) return ends(step, 'time');
  const ripe = steps(make, 'ripen').map((one) => ends(one, 'pH', 'milk'));
  const { p50 } = clottingTime({
    doseImcuPerL: rennet.imcuPerL.aim,
    temperatureC: step.set.atC?.value ?? first(make, 'warm', 'toC') ?? Number.NaN,
    pH: ripe.find((pH) => pH !== null) ?? USUAL_RENNET_PH,
    addedCalciumMM: ((calcium?.gPerL.value ?? 0) / 110.98) * 1000, // molar mass of calcium chloride
    heatTreatment: 'pasteurised',
  });
  return multiplier * p50;
}

const ages = (make: Make): readonly Step[] => steps(make, 'age');
const daysOf = (step: Step): number => ends(step, 'days') ?? 0;
/** The room in which it lies longest. */
const longestAge = (make: Make): Step | undefined => [...ages(make)].sort((a, b) => daysOf(b) - daysOf(a))[0];

/** What a row of `processes.csv` may ask of a make; null where the make has no such figure. */
export const FIGURES: Readonly<Record<string, (make: Make) => number | null>> = {
  'set-temperature': (make) => gel(make)?.set.atC?.value ?? null,
  'culture-share': ({ doses }) => doses.culture?.bulkPercent.aim ?? null,
  'rennet-dose': ({ doses }) => doses.rennet?.imcuPerL.aim ?? null,
  'acid-dose': ({ doses }) => doses.acid?.gPerL.aim ?? null,
  'milk-share': ({ doses }) => (doses.milk === undefined ? null : doses.milk.mLPerL.aim / 10),
  'ripen-minutes': (make) => minutesOf(make, 'ripen'),
  'fleck-times': (make) => ends(gel(make), 'flocculation'),
  'set-minutes': setMinutes,
  'cut-size': (make) => first(make, 'cut', 'cubeMm'),
  'cook-temperature': (make) => settings(make, 'cook', 'toC').at(-1) ?? first(make, 'wash', 'stopAtC'),
  'cook-minutes': (make) => sum(settings(make, 'cook', 'overMinutes')),
  'stir-minutes': (make) => ends(steps(make, 'stir')[0], 'time'),
  'settle-minutes': (make) => ends(steps(make, 'settle').at(-1), 'time'),
  'heat-temperature': (make) => first(make, 'warm', 'toC'),
  'curdle-temperature': (make) => first(make, 'heatWithAcid', 'toC'),
  'whey-off': (make) => percent(first(make, 'drawWhey', 'fractionOfVat')),
  'wash-temperature': (make) => first(make, 'wash', 'waterC'),
  'wash-share': (make) => percent(first(make, 'wash', 'waterFraction')),
  'drain-ph-whey': (make) => drainPH(make, 'whey'),
  'drain-ph-curd': (make) => drainPH(make, 'curd'),
  'drain-minutes': (make) => ends(steps(make, 'drain')[0], 'time'),
  'mat-minutes': (make) => minutesOf(make, 'mat'),
  'work-ph': (make) => aim(make, 'pH', false),
  'stretch-water': (make) => first(make, 'stretch', 'waterC'),
  'stretch-curd': (make) => first(make, 'stretch', 'curdTargetC'),
  'room-temperature': (make) => steps(make, 'restToAcid').at(-1)?.set.atC?.value ?? null,
  'form-hours': (make) => hours(minutesOf(make, 'press', 'restToAcid')),
  'press-pressure': (make) => Math.max(...settings(make, 'press', 'pressureKPa'), 0) || null,
  'press-hours': (make) => hours(minutesOf(make, 'press')),
  'brine-strength': (make) => first(make, 'brine', 'brinePercent') ?? first(make, 'keepInLiquid', 'brinePercent'),
  'dry-salt': (make) => first(make, 'drySalt', 'saltPercent'),
  salt: (make) => aim(make, 'saltPercent', true),
  moisture: (make) => aim(make, 'moisturePercent', true),
  ph: (make) => aim(make, 'pH', true),
  yield: (make) => hundredKg(aim(make, 'cheesePerMilkKgPerL', true)),
  'age-temperature': (make) => longestAge(make)?.set.atC?.value ?? null,
  'age-humidity': (make) => longestAge(make)?.set.humidityPercent?.value ?? null,
  'age-days': (make) => sum(ages(make).map(daysOf)),
  'warm-room-temperature': (make) => (ages(make).length < 3 ? null : Math.max(...settings(make, 'age', 'atC'))),
  'keep-days': (make) => sum(steps(make, 'keepInLiquid').map(daysOf)),
};

function percent(fraction: number | null): number | null {
  return fraction === null ? null : 100 * fraction;
}
function hours(minutes: number | null): number | null {
  return minutes === null ? null : minutes / MINUTES_PER_HOUR;
}
/** kg from a litre as kg from 100 kg. */
function hundredKg(kgPerL: number | null): number | null {
  return kgPerL === null ? null : (100 * kgPerL) / MILK_KG_PER_L;
}

/** The figure of a make that a row asks for. @throws Error for a quantity or make that is not there, or a figure it lacks */
function figureOf(quantity: string, makeId: string): number {
  const figure = FIGURES[quantity];
  const make = MAKES.get(makeId);
  if (figure === undefined || make === undefined) throw new Error(`no ${quantity} of ${makeId}`);
  const value = figure(make);
  if (value === null) throw new Error(`${makeId} has no ${quantity}`);
  return value;
}

export const values: PublishedValues = Object.fromEntries(
  readPublished('processes.csv').map(({ id, columns }) => [
    id,
    () => figureOf(columns['quantity'] ?? '', columns['make'] ?? ''),
  ]),
);
