import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { machineWords } from '../results.ts';
import type { GrownFound } from './grown.ts';
import { growthPlot } from './plot.ts';
import { ASKED } from './store-measures.ts';
import type { VatsFound } from './vats.ts';

/** Beside docs/reliability.md where a run is kept, else where builds lie. */
const folderOf = (isKept: boolean): string => fileURLToPath(new URL(`../../../${isKept ? 'docs/reliability' : '.build/faults'}/`, import.meta.url)); // prettier-ignore
const FILE = 'load.json';

const timesSchema = z.strictObject({ count: z.int(), p50: z.number(), p95: z.number(), longest: z.number() });
const vatsSchema = z.strictObject({
  vats: z.int(),
  devices: z.int(),
  seconds: z.number(),
  acknowledged: z.int(),
  readingsASecond: z.number(),
  acknowledgedMs: timesSchema,
  seenMs: timesSchema,
  everywhereMs: timesSchema,
  apps: z.int(),
  highestMb: z.number().nullable(),
  serverPercent: z.number().nullable(),
  clientsPercent: z.number(),
  pulls: z.int(),
  lost: z.int(),
  duplicated: z.int(),
  wrong: z.array(z.string()),
});
const grownSchema = z.strictObject({
  batches: z.int(),
  events: z.int(),
  fileMb: z.number(),
  writingS: z.number(),
  relistingS: z.number(),
  servedMs: z.number(),
  highestMb: z.number().nullable(),
  times: z.record(z.enum(ASKED), timesSchema),
  wrong: z.array(z.string()),
});
const when = { date: z.iso.date(), machine: z.string() };
const fileSchema = z.strictObject({
  vats: z.partialRecord(z.enum(['SQLite', 'PostgreSQL']), z.strictObject({ ...when, found: vatsSchema })),
  growth: z.strictObject({ ...when, found: z.array(grownSchema) }).optional(),
});
type Kept = z.infer<typeof fileSchema>;

const now = (): { readonly date: string; readonly machine: string } => ({ date: new Date().toISOString().slice(0, 10), machine: machineWords() }); // prettier-ignore

function keep(isKept: boolean, found: (before: Kept) => Kept): void {
  const folder = folderOf(isKept);
  const file = join(folder, FILE);
  // What was kept when something else was measured is measured anew, and not held against this run.
  const before = existsSync(file) ? fileSchema.safeParse(JSON.parse(readFileSync(file, 'utf8'))).data : undefined;
  mkdirSync(folder, { recursive: true });
  writeFileSync(file, `${JSON.stringify(found(before ?? { vats: {} }), null, 2)}\n`);
}

/** Puts what was held at the vats beside the other figures of docs/reliability/load.json. */
export function keepVats(engine: 'SQLite' | 'PostgreSQL', found: VatsFound, isKept: boolean): void {
  const ran = { ...now(), found: vatsSchema.parse(found) };
  keep(isKept, (before) => ({ ...before, vats: { ...before.vats, [engine]: ran } }));
}

/** Puts what growing stores took into docs/reliability/load.json, and draws growth.svg beside it. */
export function keepGrowth(found: readonly GrownFound[], isKept: boolean): void {
  const growth = { ...now(), found: z.array(grownSchema).parse(found) };
  keep(isKept, (before) => ({ ...before, growth }));
  writeFileSync(join(folderOf(isKept), 'growth.svg'), growthPlot(found));
}
