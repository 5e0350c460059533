import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { newSchema } from '../../store/database.ts';
import { attackApi, type Attacked } from '../attack/api-attack.ts';
import { attackImports } from '../attack/import-attack.ts';
import type { FaultPart, PartInput } from './part.ts';

/** Requests on a file and on PostgreSQL, and files and links, at full size. */
const REQUESTS = 12_000;
const ON_POSTGRES = 3000;
const IMPORTS = 6000;

export const fuzz: FaultPart = {
  name: 'fuzz',
  title: 'Bad input and attack',
  shows:
    'Every route of the API, taken from the API’s own description, is sent what its schema allows with something wrong in it: a ' +
    'field replaced, missing, twice or unknown, numbers beyond all numbers, moments at both ends of the calendar, half ' +
    'characters, 300 kB of text, 100,000 lists in each other, paths that lead out of the folder, names that every object has, ' +
    'markup and formulas; by the owner, a maker, a helper, a reader and somebody unpaired. Copies of the log, makes, links to a plan and ' +
    'files of loggers are read in the same way. Nothing may answer with a fault of the server, end it, or take longer than five ' +
    'seconds; every refusal must say what is wrong, where, and what to do; every answer must carry the strict headers. ' +
    'Afterwards every event in the store is read again by the rules, the makes are told from them, and the server answers.',
  showsNot:
    'what nobody thought of: the requests are drawn from schemas and a list of known attempts, in one process, without a network between. ' +
    'Whoever is paired as a maker or a helper may fill the disk.',
  async run(input) {
    const { seed, share, folder, tell } = input;
    const api = await attackApi({ folder, seed, runs: Math.ceil(REQUESTS * share), tell });
    const shared = await onPostgres(input);
    const imports = attackImports({ seed, runs: Math.ceil(IMPORTS * share) });
    return {
      figures: [
        { name: 'routes attacked', value: api.routes },
        { name: 'requests', value: api.cases },
        { name: 'of them taken', value: api.taken },
        { name: 'of them refused, with the reason', value: api.refused },
        { name: 'events kept, every one of them valid', value: api.eventsKept },
        { name: 'the slowest answer', value: api.slowestMs, unit: 'ms' },
        ...(shared === null ? [] : [{ name: 'requests with the log on PostgreSQL', value: shared.cases }, { name: 'of them taken', value: shared.taken }]), // prettier-ignore
        { name: 'files and links read', value: imports.cases },
        { name: 'of them refused, with the reason', value: imports.refused },
        { name: 'fuzz cases', value: api.cases + (shared?.cases ?? 0) + imports.cases },
      ],
      lost: 0,
      duplicated: 0,
      corrupt: 0,
      failures: [...api.wrong, ...(shared?.wrong ?? []), ...imports.wrong].slice(0, 20),
    };
  },
};

/** Two engines differ in what text they take; null where there is no PostgreSQL at hand, which is told. */
async function onPostgres({ seed, share, folder, tell }: PartInput): Promise<Attacked | null> {
  if ((process.env['VATSIDE_TEST_DATABASE_URL'] ?? '') === '') {
    tell('no PostgreSQL at hand: VATSIDE_TEST_DATABASE_URL names none');
    return null;
  }
  const schema = await newSchema();
  const empty = join(folder, 'beside-postgres');
  mkdirSync(empty);
  try {
    return await attackApi({ folder: empty, databaseUrl: schema.url, seed: seed + 2, runs: Math.ceil(ON_POSTGRES * share), tell }); // prettier-ignore
  } finally {
    await schema.remove();
  }
}
