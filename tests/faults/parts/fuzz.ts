import { attackApi } from '../attack/api-attack.ts';
import { attackImports } from '../attack/import-attack.ts';
import type { FaultPart } from './part.ts';

/** Requests, and files and links, at full size. */
const REQUESTS = 12_000;
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
    'Whoever is paired as a maker may fill the disk.',
  async run({ seed, share, folder, tell }) {
    const api = await attackApi({ folder, seed, runs: Math.ceil(REQUESTS * share), tell });
    const imports = attackImports({ seed, runs: Math.ceil(IMPORTS * share) });
    return {
      figures: [
        { name: 'routes attacked', value: api.routes },
        { name: 'requests', value: api.cases },
        { name: 'of them taken', value: api.taken },
        { name: 'of them refused, with the reason', value: api.refused },
        { name: 'events kept, every one of them valid', value: api.eventsKept },
        { name: 'the slowest answer', value: api.slowestMs, unit: 'ms' },
        { name: 'files and links read', value: imports.cases },
        { name: 'of them refused, with the reason', value: imports.refused },
        { name: 'fuzz cases', value: api.cases + imports.cases },
      ],
      lost: 0,
      duplicated: 0,
      corrupt: 0,
      failures: [...api.wrong, ...imports.wrong].slice(0, 20),
    };
  },
};
