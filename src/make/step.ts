import { z } from 'zod';
import { figureSchema, sourceSchema } from './figure.ts';
import { judgementNameSchema } from './judgement.ts';

/** The verbs of the make language. A cheese that needs new code means a verb is missing here. */
export const VERBS = [
  'warm', 'hold', 'add', 'ripen', 'set', 'cut', 'heal', 'stir', 'cook', 'settle', 'drawWhey', 'wash', 'drain', 'mat',
  'mill', 'drySalt', 'stretch', 'form', 'press', 'restToAcid', 'chillCurd', 'cool', 'brine', 'keepInLiquid', 'dry',
  'pack', 'store', 'age', 'heatWithAcid', 'boilDown', 'scoop',
] as const; // prettier-ignore
export const verbSchema = z.enum(VERBS);
export type Verb = z.infer<typeof verbSchema>;

export const INGREDIENTS = [
  'culture', 'calcium', 'rennet', 'acid', 'lipase', 'ripeningCulture', 'colour', 'salt', 'water', 'cream', 'milk',
] as const; // prettier-ignore
export const ingredientSchema = z.enum(INGREDIENTS);
export type Ingredient = z.infer<typeof ingredientSchema>;

export const sampleSchema = z.enum(['milk', 'curd', 'whey', 'brine', 'cheese', 'water', 'room']);
export type Sample = z.infer<typeof sampleSchema>;

/** What ends a step. A time beside a judgement is the expectation; the judgement decides. */
export const conditionSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('time'), minutes: figureSchema }),
  z.strictObject({ kind: z.literal('temperature'), atC: figureSchema }),
  z.strictObject({ kind: z.literal('pH'), sample: sampleSchema, at: figureSchema }),
  z.strictObject({
    kind: z.literal('judgement'),
    judgement: judgementNameSchema,
    grade: z.string(),
    source: sourceSchema,
  }),
  z.strictObject({ kind: z.literal('flocculation'), multiplier: figureSchema }),
  z.strictObject({ kind: z.literal('coreTemperature'), atC: figureSchema }),
  z.strictObject({ kind: z.literal('salt'), percent: figureSchema }),
  /** Lying, ageing: days of 24 hours. */
  z.strictObject({ kind: z.literal('days'), days: figureSchema }),
  /** Of what is in the pot or drains: curd, or whey that is boiled down. */
  z.strictObject({ kind: z.literal('moisture'), percent: figureSchema }),
  /** Curd by the scale, for each litre that the pot was filled with. */
  z.strictObject({ kind: z.literal('mass'), kgPerL: figureSchema }),
]);
export type Condition = z.infer<typeof conditionSchema>;

/** What a step sets. Which of these a verb needs is checked by `make.ts`. */
export const settingsSchema = z.strictObject({
  ingredient: ingredientSchema.optional(),
  toC: figureSchema.optional(),
  atC: figureSchema.optional(),
  overMinutes: figureSchema.optional(),
  cubeMm: figureSchema.optional(),
  stirring: z.enum(['still', 'gentle', 'drained']).optional(),
  fractionOfVat: figureSchema.optional(),
  fractionOfWhey: figureSchema.optional(),
  downToCurd: z.boolean().optional(),
  waterC: figureSchema.optional(),
  stopAtC: figureSchema.optional(),
  pours: figureSchema.optional(),
  curdTargetC: figureSchema.optional(),
  sliceMm: figureSchema.optional(),
  shape: z.enum(['sphere', 'cylinder', 'brick']).optional(),
  pieceG: figureSchema.optional(),
  /** Length over diameter of a cylinder (a log, a string); 1 where left out. */
  slenderness: figureSchema.optional(),
  bathC: figureSchema.optional(),
  brinePercent: figureSchema.optional(),
  brineC: figureSchema.optional(),
  waterPerCurd: figureSchema.optional(),
  pressureKPa: figureSchema.optional(),
  /** Wash water as a share of what the pot was filled with; without it and `stopAtC` to the line that the whey left. */
  waterFraction: figureSchema.optional(),
  /** How often it is turned while the step lasts. */
  turns: figureSchema.optional(),
  /** Pieces that the slab is milled or crumbled to. */
  pieceMm: figureSchema.optional(),
  /** Dry salt, percent of the curd as it is salted. */
  saltPercent: figureSchema.optional(),
  drainIn: z.enum(['colander', 'cloth', 'form']).optional(),
  moisturePercent: figureSchema.optional(),
  humidityPercent: figureSchema.optional(),
  rind: z.enum(['bare', 'mould', 'washed', 'waxed', 'vacuum']).optional(),
  /** Every so many days. */
  turnDays: figureSchema.optional(),
  brushDays: figureSchema.optional(),
  washDays: figureSchema.optional(),
});
export type Settings = z.infer<typeof settingsSchema>;

/** What must be ready when the step starts. Amounts that depend on milk or curd are computed by the planner. */
export const preparationSchema = z.strictObject({
  id: z.string(),
  what: z.string(),
  /** Which computed amount belongs to it, if any. */
  amount: z.enum([
    'renneted-water',
    'wash-water',
    'stretch-water',
    'ice-bath',
    'brine',
    'acid',
    'dry-salt',
    'cream',
    'none',
  ]),
  leadMinutes: figureSchema,
  /** What to do instead on the day itself, where the night for it is gone. */
  ifLate: z.string().optional(),
});
export type Preparation = z.infer<typeof preparationSchema>;

export const watchSchema = z.strictObject({
  quantity: z.enum([
    'pH',
    'temperatureC',
    'flocculation',
    'massKg',
    'wheyL',
    'titratableAcidityD',
    'humidityPercent',
    'judgement',
  ]),
  judgement: judgementNameSchema.optional(),
  sample: sampleSchema,
  when: z.string(),
  good: z.string(),
});

export const stepSchema = z.strictObject({
  id: z.string().regex(/^[a-z][a-z0-9-]*$/),
  verb: verbSchema,
  /** The step's name as the vat card prints it: a verb first ("Stir, slowly"). */
  name: z.string().min(1).max(40),
  /** Manner, at most two short sentences. */
  how: z.string().min(1).max(160),
  /** The main action in the words spoken at the vat ("It breaks clean"). */
  done: z.string().min(1).max(28),
  set: settingsSchema,
  until: z.strictObject({ join: z.enum(['first', 'all']), of: z.array(conditionSchema).min(1) }),
  hands: z.strictObject({ startMin: figureSchema, duringMin: figureSchema, endMin: figureSchema }),
  kit: z.array(
    z.enum([
      'burner',
      'pot',
      'bowl',
      'form',
      'bath',
      'brine-tub',
      'colander',
      'second-pot',
      'fridge',
      'press',
      'cloth',
      'box',
    ]),
  ),
  prepare: z.array(preparationSchema),
  watch: z.array(watchSchema),
  why: z.string().min(1),
  cautions: z.array(z.string()),
});
export type Step = z.infer<typeof stepSchema>;
