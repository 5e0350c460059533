/**
 * The facts a plan can be asked for, by their path in `Answers`: what kind of answer each takes and, for numbers, the
 * dimension it is typed in. One table serves the sentence, the list of what was assumed, and the reading of answers.
 */
export type Typed = 'volume' | 'temperature' | 'difference' | 'mass' | 'percent' | 'plain';

export interface NumberFact {
  readonly kind: 'number';
  readonly typed: Typed;
  /** Shown inside the field where the dimension has no unit of its own. */
  readonly unit?: string;
}
export interface ChoiceFact {
  readonly kind: 'choice';
  readonly options: readonly string[];
}
export type Fact = NumberFact | ChoiceFact;

const number = (typed: Typed, unit?: string): NumberFact => ({ kind: 'number', typed, ...(unit === undefined ? {} : { unit }) }); // prettier-ignore
const choice = (...options: string[]): ChoiceFact => ({ kind: 'choice', options });
const yesNo = choice('yes', 'no');
/** A packet or bottle of the list: picked there, never typed. */
const fromList = choice();

export const FACTS = {
  'milk.volumeL': number('volume'),
  'milk.species': choice('cow', 'goat', 'sheep', 'buffalo'),
  'milk.treatment': choice('pasteurised', 'raw', 'high-heat', 'uht'),
  'milk.fatPercent': number('percent'),
  'milk.proteinPercent': number('percent'),
  'milk.homogenised': yesNo,
  'milk.pH': number('plain', 'pH'),
  'milk.temperatureC': number('temperature'),
  'culture.form': choice('freeze-dried', 'frozen', 'bulk', 'whey'),
  'culture.packetTreatsL': number('volume'),
  'culture.packetMassG': number('mass'),
  'culture.packetFraction': number('plain'),
  'culture.bulkPercent': number('percent'),
  'culture.measuredBy': choice('packet', 'scale', 'spoon'),
  'culture.batchesWithLot': number('plain'),
  'culture.lot': fromList,
  'rennet.form': choice('liquid', 'powder', 'tablet'),
  'rennet.strengthImcuPerMl': number('plain', 'IMCU/mL'),
  'rennet.testedSpanImcuPerMl.low': number('plain', 'IMCU/mL'),
  'rennet.testedSpanImcuPerMl.high': number('plain', 'IMCU/mL'),
  'rennet.monthsStored': number('plain', 'months'),
  'rennet.dropsPerMl': number('plain', 'drops/mL'),
  'rennet.lot': fromList,
  'calcium.has': yesNo,
  'calcium.solutionPercent': number('percent'),
  'calcium.lot': fromList,
  'pot.volumeL': number('volume'),
  'pot.insideMm': number('plain', 'mm'),
  'pot.massKg': number('plain', 'kg'),
  'pot.burner': choice('small', 'medium', 'large'),
  'pot.heaterW': number('plain', 'W'),
  'pot.lossWPerK': number('plain', 'W/K'),
  'pot.keptWarm': choice('open', 'lid', 'towels', 'sink', 'oven'),
  'room.temperatureC': number('temperature'),
  'instruments.pHMeter': yesNo,
  'instruments.thermometerErrorC': number('difference'),
  'instruments.scale': yesNo,
  forSale: yesNo,
  children: yesNo,
  pieceG: number('mass'),
} as const satisfies Record<string, Fact>;

export type FactPath = keyof typeof FACTS;
export const isFactPath = (path: string): path is FactPath => Object.hasOwn(FACTS, path);
export const factOf = (path: FactPath): Fact => FACTS[path];
/** Every path of the table, in its order. */
export const FACT_PATHS: readonly FactPath[] = Object.keys(FACTS).filter(isFactPath);
