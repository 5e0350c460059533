/** Shares jobs out over processes. What comes back is in the order of the jobs, so the number of processes changes nothing. */
import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Done, Job } from './jobs.ts';

export async function sharedOut(input: {
  jobs: readonly Job[];
  processes: number;
  say: (line: string) => void;
}): Promise<Done[]> {
  const { jobs, processes, say } = input;
  const found: Done[] = [];
  let [next, count] = [0, 0];
  const worked = Array.from({ length: Math.min(processes, jobs.length) }, () => {
    const worker = fork(fileURLToPath(new URL('worker.ts', import.meta.url)), {
      execArgv: ['--import', 'tsx'],
      serialization: 'advanced',
    });
    const giveNext = (): void => {
      const index = next++;
      const job = jobs[index];
      if (job === undefined) worker.disconnect();
      else worker.send({ index, job });
    };
    return new Promise<void>((resolve, reject) => {
      worker.on('message', ({ index, done }: { index: number; done: Done }) => {
        found[index] = done;
        if (++count % 100 === 0) say(`${count} of ${jobs.length} done`);
        giveNext();
      });
      worker.on('error', reject);
      worker.on('exit', (code) => {
        if (code === 0) resolve();
        else reject(new Error(`a calibration process ended with ${code}`));
      });
      giveNext();
    });
  });
  await Promise.all(worked);
  return found;
}
