/// <reference lib="webworker" />
import { firstLook } from '../../../forecast/first-look.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { SimulateInput } from '../../../forecast/simulate.ts';
import { forecastOf, hasEnough, storeMembers, weighedBy, type Stored } from '../../../forecast/stored-members.ts';
import type { ForecastQuestion, ForecastReply, KeepOrder } from './forecast-messages.ts';
import { keepForesight } from './keep-foresight.ts';
import { packed } from './packed-forecast.ts';
import { secondCore } from './second-core.ts';
import { storeTogether } from './together.ts';

/** Runs the simulator beside the page, so that a tap never waits for a forecast. */
let newest = 0;
/** The members of the last whole answer: one more note of the same make only weighs them, which takes no time. */
let kept: Stored | null = null;
let keptForecast: Forecast | null = null;
const elsewhere = secondCore();
const reply = (message: ForecastReply): void => self.postMessage(message);
const replyWith = ({ number, forecast, last }: { number: number; forecast: Forecast; last: boolean }): void => {
  const sent = packed(forecast);
  self.postMessage({ number, forecast: sent, last } satisfies ForecastReply, [sent.packed.buffer]);
};
/** Lets newer questions in before the next, longer run. */
const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** Drawn with the same seed from the same beliefs. */
const isOfKept = ({
  seed,
  beliefs,
}: Pick<ForecastQuestion, 'seed'> & { readonly beliefs: ForecastQuestion['beliefs'] | undefined }): boolean =>
  kept !== null && kept.seed === seed && JSON.stringify(kept.input.beliefs ?? {}) === JSON.stringify(beliefs ?? {});

/** The kept members of the same make with one input changed: their difference shows what the change does, at once. */
function changed({ plan, history, seed, beliefs }: ForecastQuestion, count: number): Forecast | null {
  if (kept === null || keptForecast === null || !isOfKept({ seed, beliefs }) || count >= kept.members) return null;
  const isSame = kept.input.plan.make.id === plan.make.id && JSON.stringify(kept.input.history) === JSON.stringify(history); // prettier-ignore
  return isSame ? firstLook({ members: kept, forecast: keptForecast }, { plan, history, count }) : null;
}

/** The kept members weighed by what is new; null where the make or what happened to it is another. */
function weighed({ plan, history, seed, beliefs }: ForecastQuestion): Stored | null {
  if (kept === null || !isOfKept({ seed, beliefs }) || JSON.stringify(kept.input.plan) !== JSON.stringify(plan)) return null; // prettier-ignore
  const found = weighedBy(kept, history);
  return found !== null && hasEnough(found) ? found : null;
}

/** Members run on both cores, or on this one where there is no other or it was lost. */
async function stored(input: SimulateInput): Promise<Stored> {
  if (elsewhere === null) return storeMembers(input);
  try {
    return await storeTogether(input, elsewhere);
  } catch {
    return storeMembers(input); // what is wrong with the make itself is thrown again here
  }
}

async function answer(question: ForecastQuestion): Promise<void> {
  const { number, plan, history, seed, members, beliefs = {} } = question;
  for (const [index, count] of members.entries()) {
    await breath();
    if (number !== newest) return;
    const last = index === members.length - 1;
    try {
      const known = last ? null : weighed(question);
      const look = last || known !== null ? null : changed(question, count);
      if (look !== null) {
        replyWith({ number, forecast: look, last });
        continue;
      }
      const run = known ?? (await stored({ plan, history, members: count, seed, beliefs }));
      if (number !== newest) return;
      const forecast = forecastOf(run);
      if (last) [kept, keptForecast] = [run, forecast];
      replyWith({ number, forecast, last });
    } catch (error) {
      reply({ number, failed: error instanceof Error ? error.message : String(error) });
      return;
    }
  }
}

self.addEventListener('message', ({ data }: MessageEvent<ForecastQuestion | KeepOrder>) => {
  if ('keep' in data) {
    // It comes after its answer and before the next question: what is at hand is what was answered.
    if (data.number === newest && keptForecast !== null) void keepForesight({ ...data.keep, forecast: keptForecast });
    return;
  }
  newest = data.number;
  void answer(data);
});
