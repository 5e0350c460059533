import { scheduleOf } from '../../../exchange/schedule.ts';
import { bothUnits } from '../../../exchange/text/both-units.ts';
import type { Sheet } from '../../../exchange/text/telling.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { Reader } from '../device/reader.tsx';

const WIDTH = 96; // characters to a line where a text is set; nothing here is

/** A plan on the clock as every writer of files takes it; null where such a make is not seen to end. */
export function shareSheet(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  /** Milliseconds UTC. */
  readonly startAt: number;
  readonly now: number;
  readonly reader: Pick<Reader, 'say' | 'write' | 'language'>;
}): Sheet | null {
  const { plan, forecast, startAt, now, reader } = input;
  const { say, write, language } = reader;
  const schedule = scheduleOf({ plan, forecast, wish: { mode: 'start-at', at: startAt }, now });
  if (schedule === null) return null;
  return {
    plan,
    forecast,
    schedule,
    now,
    spoonDelayMin: null,
    say,
    both: bothUnits(write.units, language),
    write,
    clock: write.clock,
    day: write.day,
    wayToAnswer: (field) => field,
    width: WIDTH,
  };
}
