import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { seededRandom } from '../../../src/numbers/random.ts';
import { serve } from '../served.ts';
import { Writer } from '../writer.ts';
import type { FaultPart, PartResult } from './part.ts';

const PUSHES = 200;
/** The calls by which a program tells the system to have a file on the disk before it goes on. */
const CALL = /\b(fsync|fdatasync)\(\d+/g;

export const syncs: FaultPart = {
  name: 'syncs',
  title: 'Told to the disk before it is acknowledged',
  shows:
    'A kill does not test a power cut; what does is whether the system was told to put a change on the disk before anybody was told that it is ' +
    'kept. The server runs under `strace` while one device pushes events one request at a time, and the calls of `fsync` and ' +
    '`fdatasync` between the first request and the last answer are counted: at least one for each answer.',
  showsNot:
    'that the disk obeys. A disk or a virtual machine that says “written” too early can lose its last moments in a power cut, with ' +
    'this program as with any other.',
  async run({ seed, share, folder }) {
    const result = { figures: [], lost: 0, duplicated: 0, corrupt: 0, failures: [] } satisfies PartResult;
    if (spawnSync('strace', ['-V']).status !== 0)
      return { ...result, leftOut: 'there is no strace here to count with' };
    const trace = join(folder, 'trace');
    const calls = (): number => readFileSync(trace, 'utf8').match(CALL)?.length ?? 0;
    const served = serve({ dataDir: join(folder, 'data'), under: ['strace', '-f', '-qq', '-e', 'trace=fsync,fdatasync', '-o', trace] }); // prettier-ignore
    try {
      const url = await served.url;
      const writer = new Writer({ deviceId: 'tablet', streamId: () => 'batch:ash', random: seededRandom(seed) });
      const before = calls();
      let pushes = 0;
      await writer.writeUntil(url, () => ++pushes > Math.max(20, PUSHES * share));
      // The watcher writes what it saw a moment later.
      await new Promise((resolve) => setTimeout(resolve, 300));
      const answered = writer.statuses.get(200) ?? 0;
      const told = calls() - before;
      return {
        ...result,
        figures: [
          { name: 'pushes acknowledged', value: answered },
          { name: 'calls that put a file on the disk meanwhile', value: told },
        ],
        failures: [...writer.wrong, ...(answered > 0 && told >= answered ? [] : [`${told} calls for ${answered} acknowledged pushes`])], // prettier-ignore
      };
    } finally {
      await served.kill();
    }
  },
};
