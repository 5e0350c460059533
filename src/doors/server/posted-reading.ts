import { z } from 'zod';
import { convert, UNITS, type UnitName } from '../../numbers/units.ts';
import type { Problem } from '../../numbers/validity.ts';
import { vatSampleAt } from '../../exchange/probe/vat-sample.ts';
import { unitWritten } from '../../exchange/typed-quantity.ts';
import { readingQuantitySchema, type Reading, type ReadingQuantity } from '../../make/history.ts';
import { judgeValue, QUANTITIES, type Quantity } from '../../make/quantity.ts';
import { sampleSchema, type Sample } from '../../make/step.ts';
import type { BatchRecord } from '../../record/batch-record.ts';
import { problemsOf } from '../../record/parse-event.ts';

const AT_WORDS = 'a date and time with its offset, such as 2026-03-04T08:05:00Z, or milliseconds since 1970';

/** One reading as a script or a probe sends it. */
export const postedReadingSchema = z.strictObject({
  quantity: readingQuantitySchema,
  value: z.number(),
  /** `C`, `F`, `kg`, `g`, `lb`, `L`, `mL`, …; the canonical unit of the quantity where left out. */
  unit: z.string().max(20).optional(),
  /** When it was read; now where left out. */
  at: z.union([z.iso.datetime({ offset: true }), z.int()], { error: AT_WORDS }).optional(),
  /** What it was read in; what is in the vat just then where left out. */
  sample: sampleSchema.optional(),
  /** What measured it, for the record. */
  instrumentId: z.string().min(1).max(60).optional(),
  /** The sender's own name of this reading: sent twice, it is noted once. */
  id: z.string().min(1).max(80).optional(),
});

/** A posted reading ready to be noted, or every problem it has. */
export type Posted =
  | { readonly reading: Reading; readonly at: number; readonly hasOwnTime: boolean; readonly id: string | undefined; readonly doubt: string | null }
  | { readonly problems: readonly Problem[] }; // prettier-ignore

/** Clocks of two devices may differ by so much. Common practice (no source). */
const AHEAD_MS = 120_000;
/** Milk is looked at the evening before, not the week before. Common practice (no source). */
const BEFORE_MS = 86_400_000;

/** What is weighed, drawn or timed is of one thing; the others are of whatever is in the vat. */
const SAMPLES: Readonly<Partial<Record<ReadingQuantity, Sample>>> = {
  iceWaterC: 'water',
  massKg: 'curd',
  flocculationMin: 'milk',
  wheyL: 'whey',
  saltG: 'curd',
};

/**
 * Reads one posted reading: shape, unit, what is possible, and a time within the make.
 * @param input.root path of the item, empty for a single one
 * @param input.nowAt milliseconds UTC
 */
export function readPosted(input: {
  readonly json: unknown;
  readonly root: string;
  readonly record: BatchRecord;
  readonly nowAt: number;
}): Posted {
  const { json, root, record, nowAt } = input;
  const parsed = postedReadingSchema.safeParse(json, { reportInput: true });
  if (!parsed.success) return { problems: problemsOf(parsed.error, root) };
  const { quantity, value, unit, at: when, sample, instrumentId, id } = parsed.data;
  const fieldOf = (name: string): string => (root === '' ? name : `${root}.${name}`);
  const at = when === undefined ? nowAt : typeof when === 'number' ? when : Date.parse(when);
  const problems: Problem[] = [];
  const canonical = inCanonical({ quantity, value, unit, field: fieldOf('unit') });
  if (typeof canonical !== 'number') problems.push(canonical);
  const readIn = sample ?? SAMPLES[quantity] ?? vatSampleAt({ record, at });
  const judged = judgeValue({ quantity, value: typeof canonical === 'number' ? canonical : value, field: fieldOf('value'), sample: readIn }); // prettier-ignore
  if (judged.verdict === 'refused' && typeof canonical === 'number') problems.push(judged.problem);
  const late = timeProblem({ at, field: fieldOf('at'), record, nowAt });
  if (late !== null) problems.push(late);
  if (judged.verdict === 'refused' || problems.length > 0) return { problems };
  return {
    reading: { quantity, value: judged.value, sample: readIn, ...(instrumentId === undefined ? {} : { instrumentId }) },
    at,
    hasOwnTime: when !== undefined,
    id,
    doubt: judged.verdict === 'accepted' ? null : (judged.meant?.text ?? 'Unusual for what it was read in.'),
  };
}

function inCanonical(input: {
  readonly quantity: ReadingQuantity;
  readonly value: number;
  readonly unit: string | undefined;
  readonly field: string;
}): number | Problem {
  const { quantity, value, unit, field } = input;
  const { canonical, symbol }: Quantity = QUANTITIES[quantity];
  if (unit === undefined || unit === symbol || (quantity === 'pH' && unit === 'pH')) return value;
  const from: UnitName | undefined = unitWritten(unit);
  if (canonical !== undefined && from !== undefined && UNITS[from].dimension === UNITS[canonical].dimension) {
    return Math.round(convert({ value, from, to: canonical }) * 1e6) / 1e6;
  }
  const expected = symbol === '' ? 'no unit' : canonical === undefined ? symbol : `${symbol}, or another unit of the same kind`; // prettier-ignore
  return { code: 'unknown-choice', field, value: unit, expected, remedy: 'Leave the unit out, or give one of the same kind.' }; // prettier-ignore
}

function timeProblem(input: {
  readonly at: number;
  readonly field: string;
  readonly record: BatchRecord;
  readonly nowAt: number;
}): Problem | null {
  const { at, field, record, nowAt } = input;
  const isoOf = (ms: number): string => new Date(ms).toISOString();
  const until = Math.min(nowAt + AHEAD_MS, record.finishedAt ?? Infinity);
  const from = record.zeroAt - BEFORE_MS;
  if (at >= from && at <= until) return null;
  const remedy = at > until && record.finishedAt === until ? 'The make is over; stop sending, or send the time it was read.' : "Check the sender's clock and its offset."; // prettier-ignore
  return { code: 'impossible', field, value: Math.abs(at) < 8.64e15 ? isoOf(at) : at, expected: `${isoOf(from)} to ${isoOf(until)}`, remedy }; // prettier-ignore
}
