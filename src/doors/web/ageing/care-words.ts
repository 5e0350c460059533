/** A stay of the care in a line: "13 °C, 85 %, turn every day, weigh every 7 days". */
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { RHYTHM_JOBS, type Stay } from '../../../record/care-plan.ts';

export function stayWords(input: { readonly stay: Stay; readonly say: Say; readonly write: Writer }): string {
  const { stay, say, write } = input;
  const once = (stay.once ?? []).map((job) => say(`ageing:job.${job}`));
  const every = RHYTHM_JOBS.flatMap((job) => {
    const days = stay.every[job];
    return days === undefined ? [] : [say('ageing:care.every', { job: say(`ageing:job.${job}`), count: days })];
  });
  return [
    ...once,
    ...(stay.temperatureC === undefined ? [] : [write.degrees(stay.temperatureC).text]),
    ...(stay.humidityPercent === undefined ? [] : [say('ageing:place.humidity', { percent: write.percent(stay.humidityPercent).text })]),
    ...every,
    ...(stay.days === undefined ? [] : [say('ageing:care.for', { count: stay.days })]),
  ].join(', ');
} // prettier-ignore
