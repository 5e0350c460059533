/** What of a make's language a form shows as what: which settings are numbers, in which unit, and which are words. */
import {
  familySchema,
  speciesSchema,
  treatmentSchema,
  cultureKindSchema,
  acidKindSchema,
  aimQuantities,
} from '../../../../make/make.ts';
import { JUDGEMENT_GRADES } from '../../../../make/judgement.ts';
import { INGREDIENTS, VERBS } from '../../../../make/step.ts';

/** Settings of a step that are figures, with the unit that stands inside the field. */
export const FIGURES: Readonly<Record<string, string>> = {
  toC: '°C', atC: '°C', overMinutes: 'min', cubeMm: 'mm', fractionOfVat: '', fractionOfWhey: '', waterC: '°C', stopAtC: '°C', pours: '',
  curdTargetC: '°C', sliceMm: 'mm', pieceG: 'g', slenderness: '', bathC: '°C', brinePercent: '%', brineC: '°C', waterPerCurd: 'kg/kg',
  pressureKPa: 'kPa', waterFraction: '', turns: '', pieceMm: 'mm', saltPercent: '%', moisturePercent: '%', humidityPercent: '%',
  turnDays: 'd', brushDays: 'd', washDays: 'd',
}; // prettier-ignore

/** Settings that are words. */
export const WORDS: Readonly<Record<string, readonly string[]>> = {
  ingredient: INGREDIENTS,
  stirring: ['still', 'gentle', 'drained'],
  shape: ['sphere', 'cylinder', 'brick'],
  drainIn: ['colander', 'cloth', 'form'],
  rind: ['bare', 'mould', 'washed', 'waxed', 'vacuum'],
};

export const SETTINGS: readonly string[] = [...Object.keys(WORDS), ...Object.keys(FIGURES)];

/** Kinds of end, with the field that holds the figure and its unit; a judgement has words instead. */
export const ENDS: Readonly<Record<string, { readonly figure: string; readonly unit: string } | null>> = {
  time: { figure: 'minutes', unit: 'min' },
  temperature: { figure: 'atC', unit: '°C' },
  pH: { figure: 'at', unit: 'pH' },
  judgement: null,
  flocculation: { figure: 'multiplier', unit: '×' },
  coreTemperature: { figure: 'atC', unit: '°C' },
  salt: { figure: 'percent', unit: '%' },
  days: { figure: 'days', unit: 'd' },
  moisture: { figure: 'percent', unit: '%' },
  mass: { figure: 'kgPerL', unit: 'kg/L' },
};

/** A fresh end of a kind, with a figure to begin from. */
export function freshEnd(kind: string): Readonly<Record<string, unknown>> {
  const practice = (value: number) => ({ value, source: 'common practice' });
  const shape = ENDS[kind];
  if (kind === 'judgement') return { kind, judgement: 'cleanBreak', grade: 'clean', source: 'common practice' };
  if (kind === 'pH') return { kind, sample: 'curd', at: practice(5.2) };
  return shape === null || shape === undefined ? { kind } : { kind, [shape.figure]: practice(STARTS[kind] ?? 1) };
}

const STARTS: Readonly<Record<string, number>> = {
  time: 10,
  temperature: 32,
  flocculation: 3,
  coreTemperature: 20,
  salt: 1.5,
  days: 1,
  moisture: 50,
  mass: 0.15,
}; // our own choice, to be changed

/** Doses of a make: which are ranges by what, and what else each asks. */
export const DOSES = {
  culture: { range: 'packetFraction', unit: '×', kinds: cultureKindSchema.options },
  rennet: { range: 'imcuPerL', unit: 'IMCU/L', kinds: null },
  acid: { range: 'gPerL', unit: 'g/L', kinds: acidKindSchema.options },
  lipase: { range: 'gPerL', unit: 'g/L', kinds: null },
  ripeningCulture: { range: 'gPerL', unit: 'g/L', kinds: null },
  colour: { range: 'mLPerL', unit: 'mL/L', kinds: null },
  cream: { range: 'mLPerL', unit: 'mL/L', kinds: null },
  milk: { range: 'mLPerL', unit: 'mL/L', kinds: null },
} as const;
export type DoseName = keyof typeof DOSES | 'calcium';
export const DOSE_NAMES: readonly DoseName[] = [
  'culture',
  'rennet',
  'calcium',
  'acid',
  'lipase',
  'ripeningCulture',
  'colour',
  'cream',
  'milk',
];

const range = (low: number, aim: number, high: number) => ({ low, aim, high, source: 'common practice' });

/** A dose to begin from; our own choice in the middle of what the house's makes take. */
export function freshDose(name: DoseName): Readonly<Record<string, unknown>> {
  const fat = { value: 35, source: 'common practice' };
  switch (name) {
    case 'culture':
      return { kind: 'mesophilic', packetFraction: range(0.5, 1, 1.5), bulkPercent: range(0.5, 1, 2) };
    case 'rennet':
      return { imcuPerL: range(40, 45, 55) };
    case 'calcium':
      return { gPerL: { value: 0.12, source: 'common practice' }, whenTreatments: ['pasteurised', 'high-heat'] };
    case 'acid':
      return { kind: 'citric', gPerL: range(1.2, 1.5, 2) };
    case 'lipase':
    case 'ripeningCulture':
      return { gPerL: range(0.02, 0.03, 0.05) };
    case 'colour':
      return { mLPerL: range(0.05, 0.1, 0.2) };
    case 'cream':
      return { mLPerL: range(50, 80, 120), fatPercent: fat };
    case 'milk':
      return { mLPerL: range(100, 150, 250), fatPercent: { value: 3.6, source: 'common practice' } };
  }
}

export const CHOICES = {
  verb: VERBS,
  family: familySchema.options,
  species: speciesSchema.options,
  treatments: treatmentSchema.options,
  aims: aimQuantities,
  samples: ['milk', 'curd', 'whey', 'cheese'],
  readSamples: ['milk', 'curd', 'whey', 'brine', 'cheese', 'water', 'room'],
  kit: ['burner', 'pot', 'bowl', 'form', 'bath', 'brine-tub', 'colander', 'second-pot', 'fridge'],
  prepared: ['none', 'renneted-water', 'wash-water', 'stretch-water', 'ice-bath', 'brine', 'acid', 'dry-salt', 'cream'],
  when: ['raw', 'high-heat', 'uht', 'homogenised', 'low-fat', 'goat', 'sheep', 'buffalo'],
  effect: ['caution', 'refuse'],
  judgements: Object.keys(JUDGEMENT_GRADES),
} as const;

/** The grades of a judgement, in order; none for one that does not exist. */
export const gradesOf = (judgement: string): readonly string[] =>
  Object.entries(JUDGEMENT_GRADES).find(([name]) => name === judgement)?.[1] ?? [];
