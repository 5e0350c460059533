/** The jobs of the ageing room as a calendar that a phone subscribes to: one entry a day, with what is to be done in it. */
import { careJobs, type PlannedJob } from '../../record/care-calendar.ts';
import { dayNumber, dayText } from '../../record/day-number.ts';
import type { KeptThings } from '../../record/kept-things.ts';
import { isDemoStream } from '../../record/event.ts';
import { calendarText } from '../icalendar.ts';
import type { Say } from '../words.ts';

export const FEED_DAYS = 90; // our own choice: a season ahead
const RING_HOUR = 8; // our own choice: in the morning, by the clock of the phone

/** The jobs of every piece that lies somewhere, days away reckoned with. */
export function jobsOfAll(input: {
  readonly kept: KeptThings;
  readonly dayAt: (at: number) => number;
  readonly today: number;
  readonly until: number;
  /** Left out, those that stand in the log count. */
  readonly away?: readonly { readonly from: number; readonly to: number }[];
}): readonly PlannedJob[] {
  const { kept, dayAt, today, until } = input;
  const away = input.away ?? kept.away.map(({ from, to }) => ({ from: dayNumber(from), to: dayNumber(to) }));
  return [...kept.pieces.values()]
    .flatMap((piece) => careJobs({ piece, dayAt, today, until, away }))
    .sort((a, b) => a.day - b.day);
}

/**
 * The calendar file. The worked example is left out: nobody is to be rung up for an invented cheese.
 * @param input.now milliseconds UTC
 */
export function careFeed(input: {
  readonly kept: KeptThings;
  readonly dayAt: (at: number) => number;
  readonly now: number;
  readonly say: Say;
}): string {
  const { kept, dayAt, now, say } = input;
  const today = dayAt(now);
  const jobs = jobsOfAll({ kept, dayAt, today, until: today + FEED_DAYS }).filter(
    ({ pieceId, job }) => !isDemoStream(pieceId) && job !== 'look',
  );
  const days = new Map<number, PlannedJob[]>();
  for (const job of jobs) days.set(job.day, [...(days.get(job.day) ?? []), job]);
  const moments = [...days].map(([day, list]) => ({
    id: `ageing.${dayText(day)}`,
    day: dayText(day),
    ringHour: RING_HOUR,
    title: say('ageing:feed.title', { jobs: countsOf(list, say) }),
    note: list.map((job) => lineOf({ job, kept, say })).join('\n'),
  }));
  return calendarText({ name: say('ageing:feed.name'), madeAt: now, moments: [], days: moments });
}

/** "turn 3, wash 1". */
function countsOf(jobs: readonly PlannedJob[], say: Say): string {
  const counts = new Map<string, number>();
  for (const { job } of jobs) counts.set(job, (counts.get(job) ?? 0) + 1);
  return [...counts]
    .map(([job, count]) => say('ageing:feed.count', { job: say(`ageing:job.${job}`), count }))
    .join(', ');
}

function lineOf(input: { readonly job: PlannedJob; readonly kept: KeptThings; readonly say: Say }): string {
  const { job, kept, say } = input;
  const piece = kept.pieces.get(job.pieceId);
  const place = piece?.placeId == null ? undefined : kept.places.get(piece.placeId);
  const where = place?.told?.name;
  const line = say(where === undefined ? 'ageing:feed.lineBare' : 'ageing:feed.line', { job: say(`ageing:job.${job.job}`), piece: piece?.made?.name ?? '', place: where ?? '' }); // prettier-ignore
  return job.cannotWait ? `${line} ${say('ageing:feed.cannotWait')}` : line;
}
