/**
 * Events of what is kept after a make: pieces that age, the places they lie in, brines, and what is counted in store. The vat
 * loads none of this; whoever notes or reads them hands `ALL_KINDS` on.
 */
import { z } from 'zod';
import { treatmentSchema } from '../make/make.ts';
import { careSchema, rindSchema } from './care-plan.ts';
import { type EventKinds, VAT_KINDS } from './parse-event.ts';

const dayText = z.iso.date();
const idOf = (type: string): z.ZodString => z.string().regex(new RegExp(`^${type}:[A-Za-z0-9._-]{1,64}$`));
const words = z.string().max(4000);

/** Where cheese lies. A box in the fridge is a place like any other. */
export const PLACE_KINDS = ['room', 'cave', 'cupboard', 'fridge', 'box'] as const;
/** What is seen inside a closed box, by the lid. */
export const DROPLETS = ['none', 'mist', 'drops', 'pool'] as const;
export const LIDS = ['shut', 'finger', 'hand', 'open'] as const;
export const TOWELS = ['none', 'dry', 'damp'] as const;

const boxSchema = z.strictObject({
  /** How far the lid stands open: not at all, a finger, a hand, no lid. */
  lid: z.enum(LIDS),
  towel: z.enum(TOWELS),
});

/** Units that a float, a scale or a recipe gives a brine's strength in. */
export const BRINE_STRENGTH_UNITS = [
  'percent-by-mass', 'g-per-L-water', 'g-per-L-brine', 'saturation-percent', 'baume', 'density',
] as const; // prettier-ignore

const strengthSchema = z.strictObject({
  value: z.number().nonnegative(),
  unit: z.enum(BRINE_STRENGTH_UNITS),
  /** Of a float: how warm the brine was that it swam in. */
  readAtC: z.number().optional(),
});

export const BRINE_LOOKS = ['clear', 'cloudy', 'film', 'slimy', 'gas'] as const;

/** Bodies by kind. */
export const keepingBodies = {
  pieceMade: z.strictObject({
    name: z.string().min(1).max(80),
    /** What cheese it is, in the maker's words or the make's. */
    cheese: z.string().max(80),
    /** How many lie together and are tended as one; they are weighed together. */
    count: z.int().min(1).max(200).optional(),
    madeOn: dayText,
    batch: idOf('batch').optional(),
    lotCode: z.string().max(40).optional(),
    makeId: z.string().max(80).optional(),
    /** The piece that it was cut from. */
    from: idOf('piece').optional(),
    massKg: z.number().positive().optional(),
    body: z.strictObject({ shape: z.enum(['sphere', 'cylinder', 'brick']), mm: z.array(z.number().positive()).min(1).max(3) }).optional(),
    moisturePercent: z.number().min(20).max(90).optional(),
    rind: rindSchema,
    treatment: treatmentSchema.optional(),
    care: careSchema,
    place: idOf('place').optional(),
    /** Where it stands on the walk round its place, 1 first. */
    shelf: z.int().min(1).max(999).optional(),
    demo: z.boolean().optional(),
  }),
  pieceTurned: z.strictObject({}),
  pieceBrushed: z.strictObject({}),
  pieceWashed: z.strictObject({ with: z.string().max(120).optional() }),
  pieceWaxed: z.strictObject({ coat: z.enum(['wax', 'coating', 'oil', 'cloth']) }),
  piecePacked: z.strictObject({ how: z.enum(['vacuum', 'paper', 'foil', 'film', 'liquid']) }),
  pieceMoved: z.strictObject({ place: idOf('place'), shelf: z.int().min(1).max(999).optional() }),
  pieceWeighed: z.strictObject({ massKg: z.number().positive() }),
  /** It is gone as one; each part is a piece of its own from then on. */
  pieceSplit: z.strictObject({ into: z.array(z.strictObject({ piece: idOf('piece'), massKg: z.number().positive().optional() })).min(2).max(50) }),
  pieceTasted: z.strictObject({ words, verdict: z.enum(['wait', 'ready', 'past']).optional() }),
  /** What grew on it, by the key's own names, and what was done. */
  pieceLooked: z.strictObject({ grew: z.string().max(40).optional(), did: z.enum(['leave', 'brush', 'wash', 'dry', 'cut', 'throw']).optional(), words: words.optional() }),
  pieceEnded: z.strictObject({ way: z.enum(['eaten', 'given', 'sold', 'thrown-away']), massKg: z.number().positive().optional(), to: z.string().max(120).optional(), because: words.optional() }),
  pieceReplanned: z.strictObject({ care: careSchema }),
  placeTold: z.strictObject({
    name: z.string().min(1).max(80),
    kind: z.enum(PLACE_KINDS),
    temperatureC: z.number().min(-5).max(40).optional(),
    humidityPercent: z.number().min(0).max(100).optional(),
    box: boxSchema.optional(),
    /** On the walk round, 1 first. */
    order: z.int().min(1).max(99).optional(),
  }),
  placeChecked: z.strictObject({
    temperatureC: z.number().min(-5).max(40).optional(),
    humidityPercent: z.number().min(0).max(100).optional(),
    droplets: z.enum(DROPLETS).optional(),
    box: boxSchema.optional(),
  }),
  placeClosed: z.strictObject({}),
  awayPlanned: z.strictObject({ from: dayText, to: dayText }),
  brineMade: z.strictObject({
    name: z.string().min(1).max(80),
    madeOn: dayText,
    volumeL: z.number().positive(),
    strength: strengthSchema,
    /** What it is kept at [% by mass]. */
    aimPercent: z.number().min(1).max(26.6),
    temperatureC: z.number().min(-5).max(40).optional(),
    pH: z.number().min(2).max(10).optional(),
    /** Anhydrous calcium chloride [g per L]. */
    calciumGPerL: z.number().nonnegative().optional(),
    demo: z.boolean().optional(),
  }),
  brineChecked: z.strictObject({
    strength: strengthSchema.optional(),
    pH: z.number().min(2).max(10).optional(),
    temperatureC: z.number().min(-5).max(40).optional(),
    volumeL: z.number().positive().optional(),
    look: z.enum(BRINE_LOOKS).optional(),
  }),
  /** A batch went through it: what the cheese weighed, and the salt it took and the water it gave, as reckoned then. */
  brineUsed: z.strictObject({ batch: idOf('batch').optional(), cheeseKg: z.number().positive(), saltTakenKg: z.number().nonnegative(), waterGivenKg: z.number().nonnegative() }),
  brineTopped: z.strictObject({ saltKg: z.number().nonnegative().optional(), waterL: z.number().nonnegative().optional(), calciumG: z.number().nonnegative().optional(), vinegarMl: z.number().nonnegative().optional() }),
  brineCared: z.strictObject({ how: z.enum(['boiled', 'filtered', 'skimmed']) }),
  brineEnded: z.strictObject({ because: words.optional() }),
  /** Somebody looked how much is left; what was used before that day is in it. */
  lotCounted: z.strictObject({ left: z.number().nonnegative(), unit: z.enum(['g', 'kg', 'mL', 'L', 'packets', 'tablets']) }),
} as const; // prettier-ignore

export type KeepingKind = keyof typeof keepingBodies;
export type KeepingBody<K extends KeepingKind> = z.infer<(typeof keepingBodies)[K]>;

const schemas: ReadonlyMap<string, z.ZodType> = new Map(Object.entries(keepingBodies));

/** The stream of each kind is the word that it begins with. */
const streamOf = (kind: string): string => (kind === 'awayPlanned' ? 'day' : (/^[a-z]+/.exec(kind)?.[0] ?? ''));

const KEPT_STREAMS = ['lot', 'piece', 'place', 'brine', 'day'] as const;

/** Every kind that the house knows: those of the vat and these. What was noted in one of these streams may be taken back there. */
export const ALL_KINDS: EventKinds = {
  schemaOf: (kind) => schemas.get(kind) ?? VAT_KINDS.schemaOf(kind),
  streamsOf(kind) {
    if (schemas.has(kind)) return [streamOf(kind)];
    const own = VAT_KINDS.streamsOf(kind);
    return kind === 'retracted' ? [...new Set([...own, ...KEPT_STREAMS])] : own;
  },
};
