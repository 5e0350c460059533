import { planFor, TO_DRAINED_REST, TO_WHEY_REST, underWay } from '../tests/makes.ts';
import { explain } from '../src/forecast/explain.ts';
import type { Question } from '../src/forecast/question.ts';
import { storeTogether } from '../src/doors/web/forecasting/together.ts';
import { simulate, told } from '../src/forecast/simulate.ts';
import { solve as solveFor } from '../src/forecast/solve.ts';
import { forecastOf, renewed, storeMembers, weighedBy } from '../src/forecast/stored-members.ts';
import type { History } from '../src/make/history.ts';
import { startSecondCore } from './second-core.ts';
import { timed, timedAsync, timingOf, type Series } from './timing.ts';

/** How long what people wait for takes, warm; README.md beside this file says what each is. Prints JSON. */
const plan = planFor();
const STORED = 4000;

/** A make in its warm rest, and one more pH of its whey. */
const before = underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey' });
const now: History = {
  ...before,
  nowMin: 205,
  readings: [{ quantity: 'pH', value: 6.3, sample: 'whey', elapsedMin: 204 }],
};

const secondCore = startSecondCore(new URL('./part-worker.mjs', import.meta.url));
const forecast500 = await timedAsync({
  runs: 150,
  warmUp: 40,
  run: async () => void told(await storeTogether({ plan, members: 500 }, secondCore.run)),
  yardstick: secondCore.yardstick,
});
secondCore.stop();
const forecast500OneCore = timed({ runs: 60, warmUp: 8, run: () => simulate({ plan, members: 500 }) });
const forecast200 = timed({ runs: 40, warmUp: 4, run: () => simulate({ plan, members: 200 }) });
const stored = storeMembers({ plan, history: before, members: STORED });
const oneMoreReading = timed({ runs: 20, warmUp: 3, run: () => weighedBy(stored, now) });
const oneMoreReadingFull = timed({
  runs: 8,
  warmUp: 1,
  run: () => {
    if (weighedBy(stored, now) === null) throw new Error('a pH of whey should weigh');
    forecastOf(renewed(stored, now));
  },
});

/** Two aims by three free inputs, searched and verified. */
const question: Question = {
  aims: [
    { quantity: 'endMin', low: Number.NEGATIVE_INFINITY, high: 480 },
    { quantity: 'saltInMoisturePercent', low: 1.9, high: 2.8 },
  ],
  free: [{ id: 'brine-strength' }, { id: 'brine-minutes' }, { id: 'rest-warmth' }],
  probability: 0.7,
};
const solve = timed({
  runs: 10,
  warmUp: 2,
  run: () => solveFor({ plan, answers: { milk: { volumeL: 12 } }, question }),
});

/** A record of a make cut too soon, with what was read of it and said of its curd; all causes. */
const cutEarly: History = {
  ...underWay({ nowMin: 400, ended: [...TO_DRAINED_REST, ['rest-drained', 330], ['stretch', 342], ['form', 354], ['cool', 376], ['brine', 400]], running: 'pack' }),
  readings: [
    { quantity: 'flocculationMin', value: 16, sample: 'milk', elapsedMin: 100 },
    { quantity: 'pH', value: 6.3, sample: 'whey', elapsedMin: 204 },
    { quantity: 'massKg', value: 1.75, sample: 'curd', elapsedMin: 241 },
    { quantity: 'pH', value: 5.25, sample: 'curd', elapsedMin: 325 },
  ],
  judgements: [{ judgement: 'cleanBreak', grade: 'ragged', elapsedMin: 116 }],
}; // prettier-ignore
const explained = timed({
  runs: 10,
  warmUp: 2,
  run: () => explain({ plan, history: cutEarly, faults: [{ fault: 'soft-set', isThere: true }] }),
});

const results: Readonly<Record<string, Series>> = {
  forecast500,
  oneMoreReading,
  oneMoreReadingFull,
  solve,
  forecast500OneCore,
  explain: explained,
  forecast200,
};
console.log(
  JSON.stringify(Object.fromEntries(Object.entries(results).map(([key, series]) => [key, timingOf(series)]))),
);
