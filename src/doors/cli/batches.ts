/** `vatside batches`: the batches that a store keeps, the newest first, found by words or by make. */
import type { ListedBatch } from '../../store/batch-list.ts';
import { chosenStore, openStore } from '../server/open-store.ts';
import { sayIn } from './catalogues.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = {
  make: { type: 'string' }, before: { type: 'string' }, limit: { type: 'string' }, data: { type: 'string' },
  json: { type: 'boolean' }, relist: { type: 'boolean' }, ...LANGUAGE_OPTIONS, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore
const USUAL = 50;
const MOST = 1000;

const BATCHES_HELP = `vatside batches [words] [--make id] [--limit ${USUAL}] [--before batch-id] [--json] [--data folder]
vatside batches --relist [--data folder]

Lists the batches that are kept, the newest first: day, lot, name, make, how it stands, id. Words must all stand in the
name, lot, make or notes of a batch; capitals and accents do not count. The store is chosen as by vatside serve.
--relist makes the list anew from the events, which alone are the truth; it may be done at any time, also while a server runs.
`;

/** Lists batches of the store, or makes that list anew. */
export async function batchesCommand(world: World, args: readonly string[]): Promise<number> {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'batches' });
  if (values.help === true) {
    world.out(BATCHES_HELP);
    return EXIT.answered;
  }
  const limit = Number(values.limit ?? USUAL);
  if (!(Number.isInteger(limit) && limit >= 1 && limit <= MOST)) throw new UsageError(`--limit ${values.limit ?? ''}: expected a number from 1 to ${MOST}.`); // prettier-ignore
  const say = sayIn(languageOf(world, values));
  const at = chosenStore({ ...(values.data === undefined ? {} : { dataDir: values.data }), environment: process.env });
  const store = await openStore({ at, nowMs: world.now() });
  try {
    if (values.relist === true) {
      world.out(`${say('plan-text:batches.relisted', { count: await store.batches.relist() })}\n`);
      return EXIT.answered;
    }
    const { make, before } = values;
    const found = await store.batches.list({ search: positionals.join(' '), ...(make === undefined ? {} : { makeId: make }), ...(before === undefined ? {} : { before }), limit }); // prettier-ignore
    if (values.json === true) world.out(`${JSON.stringify(found, null, 2)}\n`);
    else world.out(found.map((batch) => lineOf(batch, say(`plan-text:batches.state.${batch.state}`))).join(''));
    // What is for people goes beside the list, so that a program may read that alone.
    const last = found.at(-1);
    if (values.json !== true && last === undefined) world.err(`${say('plan-text:batches.none')}\n`);
    if (values.json !== true && last !== undefined && found.length === limit) world.err(`${say('plan-text:batches.more', { id: last.batchId })}\n`); // prettier-ignore
    return EXIT.answered;
  } finally {
    await store.close();
  }
}

/** Tabs between the columns; signs that would break a line or a terminal are left out. */
function lineOf({ zeroAt, lotCode, name, makeName, batchId }: ListedBatch, state: string): string {
  const day = new Date(zeroAt).toISOString().slice(0, 10);
  return `${[day, lotCode, name, makeName, state, batchId].map((text) => text.replaceAll(/\p{Cc}/gu, ' ')).join('\t')}\n`;
}
