import type { Advice, Choice } from '../../../forecast/advise.ts';
import type { ChoiceForecast } from '../../../forecast/choice-forecast.ts';
import type { History } from '../../../make/history.ts';
import type { Told } from '../../../make/told.ts';
import type { Entry } from './actions.ts';

/** What a choice is kept with: its words, why, and the forecast that was shown beside it. */
export interface Taken {
  readonly title: string;
  readonly because: string;
  /** The numbers as they were read. */
  readonly said: string;
}

/** What went wrong, as an event. */
export function mishapEntry({ what, temperatureC, minutes, ingredient, fractionOfPlan }: Told): Entry {
  return {
    kind: 'mishap',
    body: {
      what,
      ...(temperatureC === undefined ? {} : { temperatureC }),
      ...(minutes === undefined ? {} : { minutes }),
      ...(ingredient === undefined ? {} : { ingredient }),
      ...(fractionOfPlan === undefined ? {} : { fractionOfPlan }),
    },
  };
}

/** Going on as planned is a choice too. */
export const goOnEntry = (advice: Advice, taken: Taken): Entry => choiceTaken(advice, advice.goOn, taken, {});

/** A choice taken: kept with its forecast, and where it ends the step that runs, that step is over. */
export function choiceEntries(input: {
  readonly choice: Choice;
  readonly advice: Advice;
  readonly history: History;
  readonly taken: Taken;
}): readonly Entry[] {
  const { choice, advice, history, taken } = input;
  const { changes, departures } = choice.choice;
  const entry = choiceTaken(advice, choice.forecast, taken, {
    ...(changes === undefined ? {} : { changes }),
    ...(departures === undefined ? {} : { departures: [...departures] }),
  });
  const ends = (departures ?? []).flatMap((one) => {
    if (one.kind !== 'minutes') return [];
    const running = history.steps.find(({ stepId, endedMin }) => stepId === one.stepId && endedMin === undefined);
    return running !== undefined && running.startedMin + one.minutes <= history.nowMin + NOW_MIN ? [one.stepId] : [];
  });
  return [entry, ...ends.map((stepId): Entry => ({ kind: 'stepEnded', body: { stepId, said: taken.title } }))];
}

const NOW_MIN = 1; // a step that a choice ends within a minute is over as it is taken

/** A choice as the record keeps it, with the run of the forecast that was shown beside it. */
export function choiceTaken(
  run: Pick<Advice, 'seed' | 'members' | 'modelVersion'>,
  forecast: ChoiceForecast,
  { title, because, said }: Taken,
  more: Partial<Extract<Entry, { kind: 'choiceTaken' }>['body']>,
): Entry {
  const { seed, members, modelVersion } = run;
  const { p5, p50, p95 } = forecast.endMin;
  const finite = (minute: number): number | null => (Number.isFinite(minute) ? Math.round(minute * 10) / 10 : null);
  return {
    kind: 'choiceTaken',
    body: {
      choice: title,
      because,
      forecastShown: {
        seed,
        members,
        modelVersion,
        endMin: { p5: finite(p5), p50: finite(p50), p95: finite(p95) },
        chance: Number.isFinite(forecast.chance) ? forecast.chance : null,
        said,
      },
      ...more,
    },
  };
}
