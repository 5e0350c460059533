import { z } from 'zod';
import type { LoggerMapping } from '../../../exchange/logger/mapping.ts';
import { SAMPLE_CHOICES, type SampleChoice } from './file-answers.ts';

const KEY = 'vatside.loggers';
/** As many kinds of file as one dairy has. */
const MOST_KEPT = 20;

const keptSchema = z.object({
  time: z.object({ column: z.int(), kind: z.enum(['stamp', 'seconds', 'minutes', 'hours', 'unix-s', 'unix-ms']), dateColumn: z.int().nullable() }), // prettier-ignore
  temperature: z.object({ column: z.int(), unit: z.enum(['C', 'F']) }).nullable(),
  pHColumn: z.int().nullable(),
  dayOrder: z.enum(['day-first', 'month-first']).nullable(),
  sample: z.enum(SAMPLE_CHOICES),
});
type Kept = z.infer<typeof keptSchema>;
const allSchema = z.record(z.string(), keptSchema);

/** What was chosen for files with this heading, on this device; null where none was. */
export function keptFor(signature: string): Kept | null {
  return readAll()[signature] ?? null;
}

/** Remembers what was chosen; the oldest choice makes room. */
export function keepFor(signature: string, mapping: LoggerMapping, sample: SampleChoice): void {
  const kept = keptSchema.safeParse({ ...mapping, sample });
  if (!kept.success) return;
  const { [signature]: _before, ...others } = readAll();
  const all = [...Object.entries(others), [signature, kept.data] as const].slice(-MOST_KEPT);
  localStorage.setItem(KEY, JSON.stringify(Object.fromEntries(all)));
}

function readAll(): Readonly<Record<string, Kept>> {
  try {
    return allSchema.parse(JSON.parse(localStorage.getItem(KEY) ?? '{}'));
  } catch {
    return {};
  }
}
