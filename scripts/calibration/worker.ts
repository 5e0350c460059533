/** One of the processes that share a calibration's work (`crew.ts`): a job comes, what it found goes back. */
import { doJob, type Job } from './jobs.ts';

process.on('message', ({ index, job }: { index: number; job: Job }) => {
  process.send?.({ index, done: doJob(job) });
});
