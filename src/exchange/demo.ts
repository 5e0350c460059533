import { z } from 'zod';
import { InputError } from '../numbers/validity.ts';
import type { Make } from '../make/make.ts';
import { answersSchema } from '../make/setup.ts';
import type { Event } from '../record/event.ts';
import { problemsOf } from '../record/parse-event.ts';
import { keptEvents, keptSchema } from './demo-kept.ts';
import { scribe } from './demo-scribe.ts';

const MS_PER_MIN = 60_000;
const MS_PER_DAY = 86_400_000;

const lineSchema = z.strictObject({
  minute: z.number(),
  kind: z.string(),
  body: z.record(z.string(), z.json()),
  person: z.string().optional(),
  /** A name by which a later line can set this one right or take it back (`replaces` in its body). */
  as: z.string().optional(),
});

const batchSchema = z.strictObject({
  id: z.string().regex(/^demo-[a-z0-9-]+$/),
  name: z.string(),
  lotCode: z.string(),
  makeId: z.string(),
  person: z.string(),
  answers: answersSchema,
  /** A finished batch has a date, one under way lies so many minutes back from now. */
  zero: z.union([z.strictObject({ at: z.iso.datetime() }), z.strictObject({ minutesBeforeNow: z.number() })]),
  planFrozen: z.strictObject({ seed: z.int(), members: z.int(), modelVersion: z.string(), summary: z.record(z.string(), z.json()) }), // prettier-ignore
  lines: z.array(lineSchema),
});

const demoSchema = z.strictObject({
  about: z.string(),
  batches: z.array(batchSchema),
  plans: z.array(
    z.strictObject({
      id: z.string().regex(/^demo-[a-z0-9-]+$/),
      makeId: z.string(),
      person: z.string(),
      answers: answersSchema,
      /** On the morrow, minutes after midnight there. */
      startMinute: z.int(),
      doneByMinute: z.int(),
      note: z.string(),
    }),
  ),
  /** What ages, where, and the brine: all of it moved with the day on which the example is opened. */
  kept: z.array(keptSchema),
});
type Batch = z.infer<typeof batchSchema>;
export type Demo = z.infer<typeof demoSchema>;

/**
 * Reads the worked example.
 * @throws InputError with every problem and its path
 */
export function parseDemo(json: unknown): Demo {
  const parsed = demoSchema.safeParse(json);
  if (!parsed.success) throw new InputError(problemsOf(parsed.error, ''));
  return parsed.data;
}

/**
 * The worked example as events: finished batches on their own dates, the one under way moved to now, plans on the
 * morrow. What moves gets streams and ids of its own at each opening, so that opening it twice contradicts nothing;
 * what does not move keeps them, and a second opening passes it over.
 *
 * @param input.makes  where the makes that the example names are found
 * @param input.nowAt  now, milliseconds UTC
 * @param input.utcOffsetMin  minutes that local time is ahead of UTC; 0 where left out
 * @throws InputError when a make is missing or a line does not fit its kind
 */
export function demoEvents(input: {
  readonly demo: Demo;
  readonly makes: readonly Make[];
  readonly nowAt: number;
  readonly utcOffsetMin?: number;
}): Event[] {
  const { demo, makes, nowAt, utcOffsetMin = 0 } = input;
  const offsetMs = utcOffsetMin * MS_PER_MIN;
  const morrow = (Math.floor((nowAt + offsetMs) / MS_PER_DAY) + 1) * MS_PER_DAY - offsetMs;
  const batches = demo.batches.flatMap((batch) => batchEvents({ batch, makes, nowAt }));
  const plans = demo.plans.map(({ id, makeId, person, answers, startMinute, doneByMinute, note }) => {
    makeOf(makes, makeId);
    const startAt = morrow + startMinute * MS_PER_MIN;
    const body = { makeId, answers, startAt, doneBy: morrow + doneByMinute * MS_PER_MIN, note, demo: true };
    const streamId = `day:${id}-${startAt.toString(36)}`;
    // Named by its morning alone, so that another opening on the same day makes the same event.
    const at = morrow - MS_PER_DAY;
    return scribe(streamId)({ kind: 'dayPlanned', body, at, person });
  });
  const kept = demo.kept.flatMap((stream) => keptEvents({ stream, midnight: morrow - MS_PER_DAY, nowAt }));
  return [...batches, ...kept, ...plans];
}

function batchEvents(input: {
  readonly batch: Batch;
  readonly makes: readonly Make[];
  readonly nowAt: number;
}): Event[] {
  const { batch, makes, nowAt } = input;
  const moves = 'minutesBeforeNow' in batch.zero;
  const zeroAt = 'minutesBeforeNow' in batch.zero ? nowAt - Math.round(batch.zero.minutesBeforeNow * MS_PER_MIN) : Date.parse(batch.zero.at); // prettier-ignore
  const write = scribe(`batch:${batch.id}${moves ? `-${zeroAt.toString(36)}` : ''}`);
  const { name, lotCode, answers, person } = batch;
  const opened = { make: makeOf(makes, batch.makeId), answers, name, lotCode, zeroAt, demo: true };
  const first = zeroAt + Math.min(0, ...batch.lines.map((line) => line.minute)) * MS_PER_MIN - MS_PER_MIN;
  const events = [
    write({ kind: 'batchOpened', body: opened, at: first, person }),
    write({ kind: 'planFrozen', body: batch.planFrozen, at: first, person }),
  ];
  const named = new Map<string, string>();
  for (const line of batch.lines) {
    const body = withIds(line.body, { named, zeroAt });
    const event = write({ kind: line.kind, body, at: zeroAt + Math.round(line.minute * MS_PER_MIN), person: line.person ?? person }); // prettier-ignore
    if (line.as !== undefined) named.set(line.as, event.id);
    events.push(event);
  }
  return events;
}

/** Names in `replaces` become ids, and a timer's `startedMinute` its moment. */
function withIds(
  body: Readonly<Record<string, unknown>>,
  input: { readonly named: ReadonlyMap<string, string>; readonly zeroAt: number },
): object {
  const { replaces, startedMinute, ...rest } = body;
  return {
    ...rest,
    ...(typeof replaces === 'string' ? { replaces: input.named.get(replaces) ?? replaces } : {}),
    ...(typeof startedMinute === 'number' ? { startedAt: input.zeroAt + Math.round(startedMinute * MS_PER_MIN) } : {}),
  };
}

function makeOf(makes: readonly Make[], makeId: string): Make {
  const make = makes.find(({ id }) => id === makeId);
  if (make !== undefined) return make;
  throw new InputError([
    {
      code: 'unknown-choice',
      field: 'makeId',
      value: makeId,
      expected: makes.map(({ id }) => id).join(', '),
      remedy: 'The worked example needs this make in the makes folder.',
    },
  ]);
}
