/** What days away do to the jobs: what moves to the eve or the day after, and what cannot wait, in words. */
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { PlannedJob } from '../../../record/care-calendar.ts';
import { dayText } from '../../../record/day-number.ts';
import type { KeptThings } from '../../../record/kept-things.ts';
import { noonOf } from './use-kept.ts';

export interface AwayView {
  /** One line a cheese and job: what, and on which days somebody else must do it. */
  readonly cannotWait: readonly string[];
  /** What moves, in a sentence. */
  readonly told: string;
}

/** @param input.jobs planned with the days away in them */
export function awayView(input: {
  readonly jobs: readonly PlannedJob[];
  readonly kept: KeptThings;
  readonly say: Say;
  readonly write: Writer;
}): AwayView {
  const { jobs, kept, say, write } = input;
  const day = (number: number): string => write.shortDate(noonOf(dayText(number)));
  const groups = new Map<string, PlannedJob[]>();
  for (const job of jobs.filter(({ cannotWait }) => cannotWait)) {
    const key = `${job.pieceId} ${job.job}`;
    groups.set(key, [...(groups.get(key) ?? []), job]);
  }
  const cannotWait = [...groups.values()].flatMap((list) => {
    const [first] = list;
    if (first === undefined) return [];
    const piece = kept.pieces.get(first.pieceId)?.made?.name ?? '';
    return [say('ageing:away.line', { piece, job: say(`ageing:job.${first.job}`), days: list.map((one) => day(one.day)).join(', ') })]; // prettier-ignore
  });
  const moved = (how: PlannedJob['moved']): readonly PlannedJob[] => jobs.filter((job) => job.moved === how && job.job !== 'look'); // prettier-ignore
  const [before, after] = [moved('before'), moved('after')];
  const told = [
    ...(before.length === 0 ? [] : [say('ageing:away.before', { count: before.length, day: day(before[0]?.day ?? 0) })]),
    ...(after.length === 0 ? [] : [say('ageing:away.after', { count: after.length, day: day(after[0]?.day ?? 0) })]),
  ]; // prettier-ignore
  return { cannotWait, told: told.length === 0 ? say('ageing:away.nothing') : told.join(' ') };
}
