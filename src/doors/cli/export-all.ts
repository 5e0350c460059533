/** `vatside export --all`: everything that the store holds, in a folder that any program can read. */
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { COPY_SCHEMA } from '../../exchange/copy/copy-format.ts';
import { fileName } from '../../exchange/share/make-file.ts';
import { batchesHead, batchRow, readingRows, readingsHead } from '../../exchange/share/store-tables.ts';
import type { Say } from '../../exchange/words.ts';
import type { Event } from '../../record/event.ts';
import { foldBatch } from '../../record/fold.ts';
import { foldSavedMake } from '../../record/saved-make.ts';
import type { EventStore, StreamState } from '../../store/port.ts';
import { ROOT, sayIn } from './catalogues.ts';
import { refuseMissing, storeAt, withStore } from './copy/chosen.ts';
import { tellingFaults } from './copy/told-faults.ts';
import { syncPath, unfinished, writeWhole } from './copy/whole-file.ts';
import { copyParts, cutOf, pagesOf } from './copy/write-copy.ts';
import { languageOf } from './language.ts';
import { EXIT, UsageError, type World } from './world.ts';

const MAKE_SCHEMA = 'make.schema.json';
export const EVENTS_FILE = 'events.ndjson';

/** Writes the folder whole or not at all: it has its name once everything is in it. */
export async function exportAll(
  world: World,
  values: { readonly all: string; readonly data?: string; readonly lang?: string; readonly language?: string },
): Promise<number> {
  const say = sayIn(languageOf(world, values));
  const folder = values.all;
  return tellingFaults(world, async () => {
    const at = storeAt(values.data);
    refuseMissing(at);
    if (existsSync(folder) && readdirSync(folder).length > 0) throw new UsageError(`${folder} has something in it already. Name a new folder.`); // prettier-ignore
    const draft = unfinished(folder);
    try {
      mkdirSync(join(draft, 'makes'), { recursive: true });
      const told = await withStore({ at, now: world.now() }, (store) => writeFolder({ store, folder: draft, say }));
      renameSync(draft, folder);
      syncPath(dirname(folder));
      world.out(`${say('leaving:export.done', { folder, ...told })}\n`);
      return EXIT.answered;
    } finally {
      rmSync(draft, { recursive: true, force: true });
    }
  });
}

interface Told {
  readonly [name: string]: number;
  readonly streams: number;
  readonly events: number;
  readonly batches: number;
  readonly makes: number;
}

async function writeFolder(input: { readonly store: EventStore; readonly folder: string; readonly say: Say }): Promise<Told> {
  const { store, folder, say } = input;
  const cut = await cutOf(store);
  const write = (name: string, parts: AsyncIterable<string> | Iterable<string>): Promise<void> => writeWhole({ path: join(folder, name), parts, isForced: false });
  await write(EVENTS_FILE, copyParts(store, cut));
  for (const schema of [COPY_SCHEMA, MAKE_SCHEMA]) await write(schema, [readFileSync(join(ROOT, 'docs', schema), 'utf8')]);
  const batches = cut.streams.filter(({ streamId }) => streamId.startsWith('batch:'));
  await writeTables({ store, batches, folder });
  const names = new Set<string>();
  for (const stream of cut.streams.filter(({ streamId }) => streamId.startsWith('make:'))) {
    const { current } = foldSavedMake(await eventsOf(store, stream));
    if (current === null) continue;
    const { $schema: _, ...make } = current.make;
    await write(join('makes', freeName(names, stream.streamId.slice('make:'.length))), [`${JSON.stringify({ $schema: `../${MAKE_SCHEMA}`, ...make }, null, 2)}\n`]);
  }
  await write('README.txt', [say('leaving:export.readme')]);
  return { ...cut.counts, batches: batches.length, makes: names.size };
} // prettier-ignore

/** The file of a make, counted on where two ids differ in signs or capitals alone: some disks do not tell them apart. */
function freeName(taken: Set<string>, id: string): string {
  let name = fileName('make', `${id}.json`);
  for (let count = 2; taken.has(name.toLowerCase()); count++) name = fileName('make', `${id}-${count}.json`);
  taken.add(name.toLowerCase());
  return name;
}

/** Both tables side by side: each batch is folded once. */
async function writeTables(input: { readonly store: EventStore; readonly batches: readonly StreamState[]; readonly folder: string }): Promise<void> {
  const { store, batches, folder } = input;
  const [one, other] = [await open(join(folder, 'batches.csv'), 'wx'), await open(join(folder, 'readings.csv'), 'wx')];
  try {
    await one.write(batchesHead());
    await other.write(readingsHead());
    for (const stream of batches) {
      const record = foldBatch(await eventsOf(store, stream));
      await one.write(batchRow(record));
      const rows = readingRows(record);
      if (rows !== '') await other.write(rows);
    }
    await Promise.all([one.sync(), other.sync()]);
  } finally {
    await Promise.all([one.close(), other.close()]);
  }
} // prettier-ignore

async function eventsOf(store: EventStore, stream: StreamState): Promise<Event[]> {
  const events: Event[] = [];
  for await (const page of pagesOf(store, stream)) events.push(...page.map(({ event }) => event));
  return events;
}
