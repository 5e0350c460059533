import { killRounds } from '../kill-rounds.ts';
import type { FaultPart } from './part.ts';

const KILLS = 300;

export const kills: FaultPart = {
  name: 'kills',
  title: 'Server killed outright',
  shows:
    '`vatside serve` runs as a process of its own on its SQLite file. Three devices push events and a probe posts readings without ' +
    'pause, a fourth device reads; at a random moment the server is killed (SIGKILL: no chance to finish anything), one time in ' +
    'five while it opens, one in fifteen while it makes a new store. After each start everything that was acknowledged or ' +
    'shown to anybody must be there, once, in its place; steps and timers of the make must stand as before; SQLite’s own ' +
    '`integrity_check` must find the file whole. What had no answer is sent again, as the app does.',
  showsNot:
    'a power cut of the whole machine: after a kill the system still writes what the program handed it. Against that stands that ' +
    'an answer is given only after the disk was told to keep the change (`synchronous=FULL`); see the part on synchronising. A disk ' +
    'that lies about having written is beyond any program.',
  async run({ seed, share, folder, tell }) {
    const found = await killRounds({ rounds: Math.ceil(KILLS * share), seed, folder, tell });
    const opening = found.openingMs.toSorted((a, b) => a - b);
    return {
      figures: [
        { name: 'kills survived', value: found.kills },
        { name: 'of them while opening', value: found.killsInOpening },
        { name: 'of them while making a new store', value: found.killsOfNewStores },
        { name: 'events acknowledged to devices', value: found.acknowledged },
        { name: 'readings acknowledged to the probe', value: found.readings },
        { name: 'events kept in the end', value: found.kept },
        { name: 'opening after a kill, the middle one (with the start of the process)', value: Math.round(opening[Math.floor(opening.length / 2)] ?? 0), unit: 'ms' }, // prettier-ignore
        { name: 'the longest', value: Math.round(opening.at(-1) ?? 0), unit: 'ms' },
      ],
      lost: found.lost,
      duplicated: found.duplicated,
      corrupt: found.corrupt,
      failures: found.failures.slice(0, 20),
    };
  },
};
