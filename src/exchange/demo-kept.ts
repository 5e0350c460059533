/** Cheeses that age at Larkenshaw, their places and the brine: lines so many days ago, moved to the day of opening. */
import { z } from 'zod';
import { dayText } from '../record/day-number.ts';
import type { Event } from '../record/event.ts';
import { scribe } from './demo-scribe.ts';

const MS_PER_MIN = 60_000;
const MS_PER_DAY = 86_400_000;

export const keptSchema = z.strictObject({
  stream: z.string().regex(/^(piece|place|brine):demo-[a-z0-9-]+$/),
  person: z.string(),
  lines: z.array(
    z.strictObject({
      daysAgo: z.int().min(0),
      /** Of the day, by the local clock. */
      minute: z.number().default(540),
      kind: z.string(),
      body: z.record(z.string(), z.json()),
      /** So many times more, each so many days later, on each of which the same was done. */
      again: z.strictObject({ every: z.int().min(1), times: z.int().min(1) }).optional(),
    }),
  ),
});

/**
 * The events of one stream. In a body `@place:demo-…` names another stream of the example and `@day:41` the day 41 days ago.
 * @param input.midnight when the day of opening began at the maker's place, milliseconds UTC
 */
export function keptEvents(input: {
  readonly stream: z.infer<typeof keptSchema>;
  readonly midnight: number;
  readonly nowAt: number;
}): Event[] {
  const { stream, midnight, nowAt } = input;
  const tag = Math.floor(midnight / MS_PER_DAY).toString(36);
  // Noon lies in the right day whatever the clock's distance from UTC.
  const today = Math.floor((midnight + MS_PER_DAY / 2) / MS_PER_DAY);
  const own = (id: string): string => `${id}-${tag}`;
  const filled = (value: unknown): unknown => {
    if (typeof value === 'string' && value.startsWith('@day:')) return dayText(today - Number(value.slice(5)));
    if (typeof value === 'string' && value.startsWith('@')) return own(value.slice(1));
    if (Array.isArray(value)) return value.map(filled);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, filled(each)]));
  };
  const write = scribe(own(stream.stream));
  return stream.lines
    .flatMap(({ daysAgo, minute, kind, body, again }) =>
      Array.from({ length: 1 + (again?.times ?? 0) }, (_, i) => ({
        at: midnight - (daysAgo - i * (again?.every ?? 0)) * MS_PER_DAY + minute * MS_PER_MIN,
        kind,
        body,
      })),
    )
    .filter(({ at }) => at <= nowAt)
    .sort((a, b) => a.at - b.at)
    .map(({ at, kind, body }) => {
      const said = filled(body);
      return write({ kind, body: typeof said === 'object' && said !== null ? said : {}, at, person: stream.person });
    });
}
