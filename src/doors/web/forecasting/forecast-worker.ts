/// <reference lib="webworker" />
import { simulate } from '../../../forecast/simulate.ts';
import type { ForecastQuestion, ForecastReply } from './forecast-messages.ts';

/** Runs the simulator beside the page, so that a tap never waits for a forecast. */
let newest = 0;
const reply = (message: ForecastReply): void => self.postMessage(message);
/** Lets newer questions in before the next, longer run. */
const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

async function answer(question: ForecastQuestion): Promise<void> {
  const { number, plan, history, seed, members } = question;
  for (const [index, count] of members.entries()) {
    await breath();
    if (number !== newest) return;
    try {
      const forecast = simulate({ plan, history, members: count, seed });
      reply({ number, forecast, last: index === members.length - 1 });
    } catch (error) {
      reply({ number, failed: error instanceof Error ? error.message : String(error) });
      return;
    }
  }
}

self.addEventListener('message', (event: MessageEvent<ForecastQuestion>) => {
  newest = event.data.number;
  void answer(event.data);
});
