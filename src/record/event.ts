import { z } from 'zod';
import { departureSchema } from '../make/departure.ts';
import { readingSchema } from '../make/history.ts';
import { treatmentSchema } from '../make/make.ts';
import { judgedSchema } from '../make/judgement.ts';
import { answersSchema } from '../make/setup.ts';

/** Which program wrote the event format; raised when a body changes its meaning. */
export const EVENT_VERSION = 1;

/** Longest text of one event; a log is notes, not pictures. */
export const LARGEST_EVENT_CHARS = 256 * 1024;

/**
 * Moments that an event may name [ms UTC]: the second day of the year 1 to the last but one of 9999, so that every clock,
 * calendar and zone can write them and reckon a day on either side. What is further off would stop whoever reads the stream.
 */
export const EARLIEST_AT = -62_135_510_400_000;
export const LATEST_AT = 253_402_214_399_999;
const instant = z.int().min(EARLIEST_AT).max(LATEST_AT);
/** Ten years; a cheese that a timer is set for is eaten by then. Our own choice. */
const LONGEST_TIMER_MS = 315_576_000_000;

const jsonObject = z.record(z.string(), z.json());

/** Bodies of the batch stream, by kind. Names as the make language has them. */
export const batchBodies = {
  batchOpened: z.strictObject({
    make: jsonObject,
    answers: answersSchema,
    name: z.string(),
    lotCode: z.string(),
    /** What the wall clock will show at minute zero, milliseconds UTC. */
    zeroAt: instant,
    demo: z.boolean().optional(),
    /** Pots opened together, as a class or a double batch: one id for all of them, how many, and which of them this is (1 for the first). */
    together: z.strictObject({ id: z.string().min(1).max(64), of: z.int().min(1).max(8), nth: z.int().min(1).max(8) }).optional(),
  }),
  planFrozen: z.strictObject({ seed: z.int(), members: z.int(), modelVersion: z.string(), summary: jsonObject }),
  prepared: z.strictObject({ item: z.string().max(200), value: z.number().optional(), unit: z.string().optional() }),
  stepStarted: z.strictObject({ stepId: z.string() }),
  stepEnded: z.strictObject({ stepId: z.string(), said: z.string().optional() }),
  added: z.strictObject({
    ingredient: z.string(),
    amount: z.number(),
    unit: z.string(),
    fractionOfPlan: z.number().min(0).max(10),
    lot: z.string().optional(),
  }),
  reading: readingSchema,
  judged: z.intersection(judgedSchema, z.looseObject({ how: z.string().optional() })),
  /** `changes`: what is set otherwise from then on, by the id of the make's free input; `departures`: what is done otherwise. */
  choiceTaken: z.strictObject({ choice: z.string(), because: z.string(), forecastShown: jsonObject, changes: z.record(z.string(), z.number()).optional(), departures: z.array(departureSchema).optional() }),
  /** `fractionOfPlan`: the share of the dose that went in, where it was the ingredient that went wrong. */
  mishap: z.strictObject({ what: z.string(), temperatureC: z.number().optional(), minutes: z.number().optional(), ingredient: z.string().optional(), fractionOfPlan: z.number().min(0).max(10).optional(), note: z.string().optional() }),
  timerSet: z.strictObject({ timerId: z.string(), label: z.string(), startedAt: instant, lastsMs: z.int().min(0).max(LONGEST_TIMER_MS) }),
  /** `seen`, `dueAt`: what an alarm that had to be answered said, and since when it rang; for the record. `answer` is `nobody` where it was over before anybody answered. */
  alarmAnswered: z.strictObject({ alarmId: z.string(), answer: z.string(), seen: z.string().optional(), dueAt: instant.optional() }),
  weighed: z.strictObject({ what: z.enum(['drained-curd', 'cheese', 'piece']), massKg: z.number().positive() }),
  noted: z.strictObject({ text: z.string().max(4000) }),
  /** `happenedAt` here sets right when the replaced event happened; left out, its time stands. */
  corrected: z.strictObject({ replaces: z.string(), kind: z.string(), body: jsonObject, because: z.string().optional(), happenedAt: instant.optional() }),
  retracted: z.strictObject({ replaces: z.string() }),
  labelled: z.strictObject({ name: z.string(), lotCode: z.string(), packedOn: z.string(), useBy: z.string().optional(), bestBefore: z.string().optional(), keptAtC: z.number() }),
  tasted: z.strictObject({ words: z.string().max(4000), again: z.boolean().optional() }),
  batchFinished: z.strictObject({ note: z.string().optional() }),
  /** Curd of one pot went into another: `gave` in the stream it left, `took` in the one it came into; `pot` is the other's stream. */
  joined: z.strictObject({ way: z.enum(['gave', 'took']), pot: z.string().regex(/^batch:[A-Za-z0-9._-]{1,64}$/), name: z.string().max(200), massKg: z.number().positive().optional() }),
  /** A question about a make that is over, `rennet-age` or `fault.too-dry`; the last answer to each counts. */
  answered: z.strictObject({ question: z.string().min(1).max(60), answer: z.enum(['yes', 'no', 'not-sure']) }),
  /** What the next make of this cheese is to do otherwise, by the cause it answers; an empty one takes it back. */
  nextTime: z.strictObject({ cause: z.string().max(60) }),
} as const; // prettier-ignore

export type BatchKind = keyof typeof batchBodies;
export type BatchBody<K extends BatchKind> = z.infer<(typeof batchBodies)[K]>;

/** What a lot of an ingredient can be; its stream is `lot:…`. */
export const LOT_KINDS = [
  'rennet', 'culture', 'calcium', 'milk', 'cream', 'salt', 'acid', 'lipase', 'ripeningCulture', 'colour', 'wax', 'other',
] as const; // prettier-ignore

/** A day that there is: `2026-02-29` is none. */
const dayText = z.iso.date();

/** Bodies of the other streams that exist so far. */
export const otherBodies = {
  /** `from`: the make that it was written from, where it was one of another id. */
  makeSaved: z.strictObject({ make: jsonObject, from: z.string().max(80).optional() }),
  deviceNamed: z.strictObject({ name: z.string() }),
  dayPlanned: z.strictObject({ makeId: z.string(), answers: answersSchema, startAt: instant, doneBy: instant.optional(), pots: z.strictObject({ count: z.int().min(1).max(8), apartMin: z.int().min(0).max(120) }).optional(), note: z.string().optional(), demo: z.boolean().optional() }),
  /** A bottle or packet came into the house; `strength` only where the label states one, in the label's own unit. */
  lotReceived: z.strictObject({
    lotKind: z.enum(LOT_KINDS),
    name: z.string().min(1).max(80),
    form: z.string().max(40).optional(),
    strength: z.strictObject({ value: z.number().positive(), unit: z.string().min(1).max(20) }).optional(),
    /** Of a packet: the milk that its label says it treats, and what it weighs. */
    treatsL: z.number().positive().optional(),
    massG: z.number().positive().optional(),
    receivedOn: dayText.optional(),
    expiresOn: dayText.optional(),
    /** How much came: litres, kilograms, packets. */
    amount: z.strictObject({ value: z.number().positive(), unit: z.enum(['g', 'kg', 'mL', 'L', 'packets', 'tablets']) }).optional(),
    /** What all of it cost, in the maker's own money. */
    price: z.number().nonnegative().optional(),
    note: z.string().max(4000).optional(),
  }),
  lotOpened: z.strictObject({ openedOn: dayText }),
  /** Empty, or thrown away: it leaves the list, not the record. */
  lotUsedUp: z.strictObject({ usedUpOn: dayText }),
  /** A cup test: milk, measured rennet and a clock. What was seen stands beside what the model made of it. */
  lotTested: z.strictObject({
    strengthImcuPerMl: z.strictObject({ p5: z.number().nonnegative(), p50: z.number().positive(), p95: z.number().positive() }),
    flocculationMin: z.number().positive(),
    temperatureC: z.number(),
    /** The words on the carton, and what they say of heat: milk heated high makes good rennet look weak. */
    milk: z.string().max(200),
    milkTreatment: treatmentSchema.optional(),
    milkMl: z.number().positive(),
    drops: z.number().positive().optional(),
    rennetMl: z.number().positive().optional(),
    pH: z.number().min(0).max(14).optional(),
    makesCurd: z.enum(['yes', 'weak', 'no']),
  }),
} as const; // prettier-ignore

export type OtherKind = keyof typeof otherBodies;
export type OtherBody<K extends OtherKind> = z.infer<(typeof otherBodies)[K]>;

/**
 * One thing that happened; never edited, never deleted.
 * Order within a stream: `clock`, then `deviceId`, then `deviceSeq`; plots use `happenedAt`.
 */
export const eventSchema = z.strictObject({
  id: z.string().regex(/^[A-Za-z0-9._-]{1,64}$/),
  streamId: z.string().regex(/^(batch|vat|lot|brine|piece|place|make|day|device):[A-Za-z0-9._-]{1,64}$/),
  kind: z.string().min(1).max(40),
  version: z.int().min(1),
  happenedAt: instant,
  loggedAt: instant,
  /** Hybrid logical clock (Kulkarni et al. 2014): milliseconds and a counter, sortable as text. */
  clock: z.string().regex(/^\d{15}-\d{5}$/),
  person: z.string().max(80),
  deviceId: z.string().regex(/^[A-Za-z0-9._-]{1,64}$/),
  deviceSeq: z.int().min(0),
  body: jsonObject,
});
export type Event = z.infer<typeof eventSchema>;
export type JsonObject = Event['body'];

/** Streams of the worked example live on the device that opened it; they are never sent anywhere. */
export function isDemoStream(streamId: string): boolean {
  return streamId.includes(':demo-');
}
