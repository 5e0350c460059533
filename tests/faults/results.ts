import { cpus, totalmem } from 'node:os';
import { z } from 'zod';
import type { FaultPart, PartResult } from './parts/part.ts';

const figureSchema = z.strictObject({ name: z.string(), value: z.number(), unit: z.string().optional() });
const resultSchema = z.strictObject({
  figures: z.array(figureSchema),
  lost: z.int(),
  duplicated: z.int(),
  corrupt: z.int(),
  failures: z.array(z.string()),
  leftOut: z.string().optional(),
});

/** One part as it was run: what it found, when, on what, and the words that go with it. */
const ranSchema = z.strictObject({
  title: z.string(),
  shows: z.string(),
  showsNot: z.string(),
  date: z.iso.date(),
  machine: z.string(),
  seed: z.int(),
  share: z.number(),
  seconds: z.number(),
  result: resultSchema,
});
export type Ran = z.infer<typeof ranSchema>;

/** The results that `docs/reliability.md` is written from, by the name of the part. */
export const resultsSchema = z.record(z.string(), ranSchema);
export type Results = z.infer<typeof resultsSchema>;

/** The machine in general terms: what a reader needs to set the figures beside his own. */
export function machineWords(): string {
  const gib = Math.round(totalmem() / 2 ** 30);
  return `${cpus().length} cores, ${gib} GiB of memory, Node ${process.versions.node}, ${process.platform}`;
}

/** Binds what a part found to the words and the circumstances it was found in. */
export function ranOf(input: {
  readonly part: FaultPart;
  readonly result: PartResult;
  readonly seed: number;
  readonly share: number;
  readonly startedMs: number;
  readonly endedMs: number;
}): Ran {
  const { part, result, seed, share, startedMs, endedMs } = input;
  return ranSchema.parse({
    title: part.title,
    shows: part.shows,
    showsNot: part.showsNot,
    date: new Date(startedMs).toISOString().slice(0, 10),
    machine: machineWords(),
    seed,
    share,
    seconds: Math.round((endedMs - startedMs) / 1000),
    result,
  });
}

/** The last line of a run: what it promises and whether it held. */
export function lastLine(rans: readonly Ran[]): string {
  const sum = (of: 'lost' | 'duplicated' | 'corrupt'): number => rans.reduce((all, { result }) => all + result[of], 0);
  const counts = `${sum('lost')} lost, ${sum('duplicated')} duplicated, ${sum('corrupt')} corrupt`;
  const failures = rans.flatMap(({ title, result }) => result.failures.map((failure) => `${title}: ${failure}`));
  return failures.length === 0 ? `faults: ${counts}` : `faults: ${counts}; FAILED: ${failures.join('; ')}`;
}

/** Whether everything promised held. */
export function isClean(rans: readonly Ran[]): boolean {
  return rans.every(({ result }) => result.lost + result.duplicated + result.corrupt + result.failures.length === 0);
}
