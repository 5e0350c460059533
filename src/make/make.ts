import { z } from 'zod';
import { InputError, type Problem } from '../numbers/validity.ts';
import { figureSchema, parameterSchema, rangeFigureSchema, sourceSchema } from './figure.ts';
import { freeInputSchema } from './free-input.ts';
import { freeInputProblems } from './free-input-problems.ts';
import { JUDGEMENT_GRADES } from './judgement.ts';
import { isModelParameter, MODEL_PARAMETERS } from './parameters.ts';
import { isRecord, schemaProblems } from './problems.ts';
import { stepSchema, type Ingredient, type Step, type Verb } from './step.ts';

export { pathText } from './problems.ts';

export const speciesSchema = z.enum(['cow', 'goat', 'sheep', 'buffalo']);
export type Species = z.infer<typeof speciesSchema>;
export const treatmentSchema = z.enum(['raw', 'pasteurised', 'high-heat', 'uht']);
export type Treatment = z.infer<typeof treatmentSchema>;
export const cultureKindSchema = z.enum([
  'thermophilic',
  'yoghurt',
  'thermophilic-helveticus',
  'mesophilic',
  'mesophilic-aromatic',
  'kefir',
]);
export type CultureKind = z.infer<typeof cultureKindSchema>;
export const familySchema = z.enum([
  'cheddar', 'stretched', 'washed', 'fresh', 'lactic', 'bloomy', 'alpine', 'brined', 'cottage', 'whey',
  'heat-acid', 'cultured-milk', 'boiled-whey', 'hard', 'blue', 'smear', 'tomme',
]); // prettier-ignore
export type Family = z.infer<typeof familySchema>;

/** What a deviation of the milk from the make's own does: a caution, or a refusal with its reason. */
const deviationSchema = z.strictObject({
  when: z.enum(['raw', 'high-heat', 'uht', 'homogenised', 'low-fat', 'goat', 'sheep', 'buffalo']),
  effect: z.enum(['caution', 'refuse']),
  because: z.string(),
  instead: z.string(),
  source: sourceSchema.optional(),
});

const milkSchema = z.strictObject({
  /** What the pot is filled with; the litres of a plan are litres of it. Milk where left out. */
  fill: z.enum(['milk', 'whey']).optional(),
  species: z.array(speciesSchema).min(1),
  fatPercent: rangeFigureSchema,
  treatments: z.array(treatmentSchema).min(1),
  deviations: z.array(deviationSchema),
  cartonWords: z.strictObject({ buy: z.array(z.string()), avoid: z.array(z.string()) }),
});

export const aimQuantities = [
  'pH', 'moisturePercent', 'fatInDryMatterPercent', 'saltPercent', 'saltInMoisturePercent', 'cheesePerMilkKgPerL',
] as const; // prettier-ignore
const aimSchema = z.strictObject({
  quantity: z.enum(aimQuantities),
  sample: z.enum(['milk', 'curd', 'whey', 'cheese']),
  /** Step id at whose end it is meant, or `finished`. */
  moment: z.string(),
  low: z.number(),
  aim: z.number(),
  high: z.number(),
  basis: z.string(),
  source: sourceSchema,
});
export type Aim = z.infer<typeof aimSchema>;

/** As it is weighed: citric acid as monohydrate crystals, vinegar of 5 % acetic acid, lemon juice of 5 % citric acid, lactic acid of 80 %. */
export const acidKindSchema = z.enum(['citric', 'vinegar', 'lemon', 'lactic']);
export type AcidKind = z.infer<typeof acidKindSchema>;
const pouredSchema = z.strictObject({ mLPerL: rangeFigureSchema, fatPercent: figureSchema });
const powderSchema = z.strictObject({ gPerL: rangeFigureSchema });

/** For each litre that the pot is filled with; what a make does not use is left out. */
const dosesSchema = z.strictObject({
  culture: z
    .strictObject({
      kind: cultureKindSchema,
      /** Share of the packet's stated dose for this much milk; 1 = full. */
      packetFraction: rangeFigureSchema,
      /** Percent of the milk when a bulk starter is used instead. */
      bulkPercent: rangeFigureSchema,
    })
    .optional(),
  rennet: z.strictObject({ imcuPerL: rangeFigureSchema }).optional(),
  acid: z.strictObject({ kind: acidKindSchema, gPerL: rangeFigureSchema }).optional(),
  lipase: powderSchema.optional(),
  ripeningCulture: powderSchema.optional(),
  colour: z.strictObject({ mLPerL: rangeFigureSchema }).optional(),
  cream: pouredSchema.optional(),
  /** Milk that goes into whey. */
  milk: pouredSchema.optional(),
  /** Anhydrous, given when the milk is pasteurised. */
  calcium: z.strictObject({ gPerL: figureSchema, whenTreatments: z.array(treatmentSchema) }).optional(),
});

export const makeSchema = z.strictObject({
  $schema: z.string().optional(),
  id: z.string().regex(/^[a-z][a-z0-9-]*$/),
  version: z.int().min(1),
  status: z.enum(['draft', 'tried', 'taught']),
  name: z.string(),
  family: familySchema,
  about: z.string(),
  difficulty: z.int().min(1).max(5),
  shelfLife: z.strictObject({ days: figureSchema, keptAtC: figureSchema, note: z.string() }),
  aliases: z.array(z.string()),
  properties: z.strictObject({
    rawForbiddenByName: z.boolean(),
    starterFree: z.boolean(),
    surfaceRipened: z.boolean(),
  }),
  milk: milkSchema,
  aims: z.array(aimSchema).min(1),
  doses: dosesSchema,
  /** Named parameters of the models this make leans on; names in `parameters.ts`. */
  model: z.record(z.string(), parameterSchema),
  steps: z.array(stepSchema).min(2),
  /** What of it the maker may choose, and how far; doses have their ranges above. */
  free: z.array(freeInputSchema).optional(),
  sources: z.array(z.string()),
});
export type Make = z.infer<typeof makeSchema>;

/** Settings a verb cannot do without. */
const NEEDED: Partial<Record<Verb, readonly (keyof Step['set'])[]>> = {
  warm: ['toC'],
  hold: ['atC'],
  add: ['ingredient'],
  ripen: ['atC'],
  set: ['atC'],
  cut: ['cubeMm'],
  cook: ['toC', 'overMinutes'],
  wash: ['waterC'],
  restToAcid: ['atC', 'stirring'],
  stretch: ['curdTargetC', 'waterC', 'pours', 'sliceMm'],
  form: ['shape', 'pieceG'],
  cool: ['bathC'],
  brine: ['brinePercent', 'brineC'],
  mat: ['atC', 'turns'],
  mill: ['pieceMm'],
  drySalt: ['saltPercent'],
  press: ['pressureKPa'],
  chillCurd: ['atC'],
  keepInLiquid: ['brinePercent', 'brineC'],
  dry: ['atC', 'humidityPercent'],
  age: ['atC', 'humidityPercent', 'rind'],
  heatWithAcid: ['toC'],
  boilDown: ['moisturePercent'],
};

/** Ingredients whose amount stands among the doses. */
const DOSED: Partial<Record<Ingredient, keyof Make['doses']>> = {
  culture: 'culture',
  rennet: 'rennet',
  calcium: 'calcium',
  acid: 'acid',
  lipase: 'lipase',
  ripeningCulture: 'ripeningCulture',
  colour: 'colour',
  cream: 'cream',
  milk: 'milk',
};

/**
 * Reads a make from parsed JSON.
 * @throws InputError listing every problem with its path (`steps[3].set.toC`) and what would do
 */
export function parseMake(json: unknown): Make {
  const parsed = makeSchema.safeParse(json);
  if (!parsed.success) {
    throw new InputError(
      schemaProblems({
        issues: parsed.error.issues,
        json,
        whole: 'make',
        remedy: 'See the make schema, docs/make.schema.json.',
      }),
    );
  }
  const problems = [...consistency(parsed.data)];
  if (problems.length > 0) throw new InputError(problems);
  return parsed.data;
}

/** What a schema cannot say: ids once, sources that resolve, ranges in order, settings that the verb needs. */
function* consistency(make: Make): Generator<Problem> {
  const seen = new Set<string>();
  for (const [index, step] of make.steps.entries()) {
    const at = `steps[${index}]`;
    if (seen.has(step.id)) {
      yield { code: 'contradiction', field: `${at}.id`, value: step.id, expected: 'an id used once', remedy: 'Rename one of the two steps.' }; // prettier-ignore
    }
    seen.add(step.id);
    for (const key of NEEDED[step.verb] ?? []) {
      if (step.set[key] === undefined) {
        yield { code: 'missing', field: `${at}.set.${key}`, value: undefined, expected: `a figure, because the verb is ${step.verb}`, remedy: `Add "${key}": {"value": …, "source": …}.` }; // prettier-ignore
      }
    }
    const dose = step.set.ingredient === undefined ? undefined : DOSED[step.set.ingredient];
    if (dose !== undefined && make.doses[dose] === undefined) {
      yield { code: 'missing', field: `doses.${dose}`, value: undefined, expected: `a dose, because ${step.id} adds it`, remedy: 'Give the dose, or take the step out.' }; // prettier-ignore
    }
    for (const [number, condition] of step.until.of.entries()) {
      if (condition.kind !== 'judgement') continue;
      const grades: readonly string[] = JUDGEMENT_GRADES[condition.judgement];
      if (!grades.includes(condition.grade)) {
        yield { code: 'unknown-choice', field: `${at}.until.of[${number}].grade`, value: condition.grade, expected: grades.join(', '), remedy: 'Use one of these grades.' }; // prettier-ignore
      }
    }
  }
  for (const [index, aim] of make.aims.entries()) {
    if (aim.moment !== 'finished' && !seen.has(aim.moment)) {
      yield { code: 'unknown-choice', field: `aims[${index}].moment`, value: aim.moment, expected: `finished or a step id (${[...seen].join(', ')})`, remedy: 'Name a step of this make.' }; // prettier-ignore
    }
  }
  for (const name of Object.keys(make.model)) {
    if (!isModelParameter(name)) {
      yield { code: 'unknown-choice', field: `model.${name}`, value: name, expected: Object.keys(MODEL_PARAMETERS).join(', '), remedy: 'Use one of these names, or take it out.' }; // prettier-ignore
    }
  }
  yield* freeInputProblems(make);
  yield* walkFigures(make, make.sources.length, '');
}

function* walkFigures(node: unknown, sources: number, path: string): Generator<Problem> {
  if (Array.isArray(node)) {
    for (const [index, item] of node.entries()) yield* walkFigures(item, sources, `${path}[${index}]`);
    return;
  }
  if (!isRecord(node)) return;
  const { source, low, aim, high } = node;
  if (typeof source === 'number' && source >= sources) {
    yield { code: 'unknown-choice', field: `${path}.source`, value: source, expected: `an index below ${sources}`, remedy: 'Add the source to the list, or write "common practice".' }; // prettier-ignore
  }
  if (typeof low === 'number' && typeof aim === 'number' && typeof high === 'number' && !(low <= aim && aim <= high)) {
    yield { code: 'contradiction', field: path, value: [low, aim, high], expected: 'low <= aim <= high', remedy: 'Put the three in order.' }; // prettier-ignore
  }
  for (const [key, value] of Object.entries(node)) {
    yield* walkFigures(value, sources, path === '' ? key : `${path}.${key}`);
  }
}
