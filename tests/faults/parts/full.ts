import { pageLimit, smallDisk } from '../full-disk.ts';
import type { FaultPart } from './part.ts';

/** Fillings with a page limit, and on a real small file system, at full size. */
const LIMITED = 20;
const SMALL_DISKS = 6;

export const full: FaultPart = {
  name: 'full',
  title: 'Disk full',
  shows:
    'The server’s disk fills up while a device pushes: a file system of two megabytes under the real server (where the run may mount ' +
    'one), and a limit of pages on the SQLite file. The server must answer 507 with a sentence that says so, take nothing by ' +
    'halves, go on showing what it has, and go on taking events by itself once there is room. Every second time on the small ' +
    'file system the server is killed as well while there is no room, and must open on the full disk.',
  showsNot:
    'a full disk on the device itself. There the browser refuses the change at once (`tests/store/lost-connection.test.ts`), and what ' +
    'was not kept is not shown as saved.',
  async run({ seed, share, folder, tell }) {
    const limited = await pageLimit({ folder, seed, times: Math.max(2, Math.round(LIMITED * share)) });
    const small = await smallDisk({ folder, seed, times: Math.max(2, Math.round(SMALL_DISKS * share)) });
    if (small === null)
      tell('no small file system could be mounted here (that takes root): the page limit alone was tried');
    const all = small === null ? [limited] : [limited, small];
    const sum = (of: 'times' | 'acknowledged' | 'refused' | 'keptAfter' | 'lost' | 'duplicated' | 'corrupt'): number => all.reduce((total, one) => total + one[of], 0); // prettier-ignore
    return {
      figures: [
        { name: 'times the disk was full', value: sum('times') },
        { name: 'of them on a real small file system', value: small?.times ?? 0 },
        { name: 'events acknowledged', value: sum('acknowledged') },
        { name: 'pushes answered with “disk full”', value: sum('refused') },
        { name: 'events that waited and were taken once there was room', value: sum('keptAfter') },
      ],
      lost: sum('lost'),
      duplicated: sum('duplicated'),
      corrupt: sum('corrupt'),
      failures: all.flatMap(({ failures }) => failures).slice(0, 20),
    };
  },
};
