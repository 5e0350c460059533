import quickStretched from '../makes/quick-stretched.json' with { type: 'json' };
import type { DayPot } from '../src/forecast/day/day.ts';
import type { Forecast, StepForecast } from '../src/forecast/forecast.ts';
import { simulate } from '../src/forecast/simulate.ts';
import { parseMake } from '../src/make/make.ts';
import type { PlannedStep } from '../src/make/plan.ts';
import { planMake } from '../src/make/planning.ts';
import type { Verb } from '../src/make/step.ts';
import { spreadOf } from '../src/numbers/stats.ts';

/** Pots for tests of the day: steps written in one line each, with a forecast that is as wide as one says. */

export interface Line {
  readonly id: string;
  readonly verb: Verb;
  /** Likeliest length and how far it may be off, as a share of it. */
  readonly min: number;
  readonly off?: number;
  readonly hands?: readonly [start: number, during: number, end: number];
  readonly kit?: PlannedStep['kit'];
  /** Lead by what is made ready: `water` is heated, `night` is for the evening before. */
  readonly prepare?: Readonly<Partial<Record<'lay' | 'water' | 'night', number>>>;
}

const DRAWS = 60;

/** A make of such lines, foreseen by equally likely draws: in each, all of its waits are long or all are short. */
export function potOf(input: { readonly id: string; readonly makeId: string; readonly lines: readonly Line[]; readonly waterKg?: number }): DayPot {
  const { id, makeId, lines, waterKg = 1.5 } = input;
  const draws = Array.from({ length: DRAWS }, (_, draw) => ((draw + 0.5) / DRAWS) * 2 - 1);
  let started = draws.map(() => 0);
  const steps = lines.map((line): StepForecast => {
    const ended = started.map((at, draw) => at + line.min * (1 + (line.off ?? 0) * (draws[draw] ?? 0)));
    const dots = Array.from({ length: 20 }, (_, dot) => [...ended].sort((a, b) => a - b)[dot * 3 + 1] ?? 0);
    const step: StepForecast = { stepId: line.id, state: 'coming', startMin: spreadOf(started), endMin: spreadOf(ended), endDots: dots, phase: 'milk', looksMin: [], endPH: null, endTemperatureC: null };
    started = ended;
    return step;
  });
  return { id, makeId, steps: lines.map(stepOf), foreseen: { steps, needs: needsOf(waterKg) } };
} // prettier-ignore

function stepOf(line: Line): PlannedStep {
  const [start, during, end] = line.hands ?? [0, 0, 0];
  const prepare = Object.entries(line.prepare ?? {}).map(([kind, lead]): PlannedStep['prepare'][number] => ({
    id: kind,
    what: kind,
    amount: kind === 'water' ? 'stretch-water' : 'none',
    leadMinutes: { value: lead, source: 'common practice' },
  }));
  return {
    id: line.id, verb: line.verb, name: line.id, how: line.id, done: line.id,
    set: line.verb === 'stretch' ? { waterC: 80 } : {},
    until: { join: 'first', of: [{ kind: 'time', minutes: { value: line.min, source: 'common practice' } }] },
    handsMin: { start, during, end }, kit: line.kit ?? ['pot'], prepare, watch: [], why: line.id, cautions: [],
  }; // prettier-ignore
}

function needsOf(waterKg: number): Forecast['needs'] {
  const water = spreadOf([waterKg * 0.9, waterKg, waterKg * 1.1]);
  return {
    heatOffC: [], wheyDrawnL: null, wheyDrawnCm: null, washWaterL: null, stretchWaterKg: water, stretchWaterC: 80,
    stretchWaterHeatMin: spreadOf([waterKg * 3.6, waterKg * 4, waterKg * 4.4]), iceKg: null, coolMin: null, brineKg: null,
    brineSaltKg: null, brineMin: null, filledPotKg: null,
  }; // prettier-ignore
}

/** What a class of three hours can make: two litres each of the quick stretched curd that Vatside ships, as it is foreseen. */
export const QUICK_LITRES = 2;
let quick: Omit<DayPot, 'id'> | null = null;

/** One pot of it; all share one forecast, as pots that are planned alike do. */
export function quickPot(id: string): DayPot {
  if (quick === null) {
    const plan = planMake({ make: parseMake(quickStretched), answers: { milk: { volumeL: QUICK_LITRES } } });
    quick = { makeId: plan.make.id, steps: plan.steps, foreseen: simulate({ plan, seed: 1, members: DRAWS }) };
  }
  return { ...quick, id };
}

/** Pressed curd: its press is what pots wait for. */
export const PRESSED: readonly Line[] = [
  { id: 'warm', verb: 'warm', min: 25, off: 0.2, hands: [2, 6, 1], kit: ['burner', 'pot'], prepare: { lay: 15 } },
  { id: 'culture', verb: 'add', min: 3, hands: [3, 0, 0] },
  { id: 'ripen', verb: 'ripen', min: 40, off: 0.1 },
  { id: 'rennet', verb: 'add', min: 2, hands: [2, 0, 0], prepare: { lay: 15 } },
  { id: 'set', verb: 'set', min: 35, off: 0.2, hands: [0, 2, 1] },
  { id: 'cut', verb: 'cut', min: 8, hands: [8, 0, 0] },
  { id: 'cook', verb: 'cook', min: 35, off: 0.1, hands: [1, 20, 1], kit: ['burner', 'pot'] },
  { id: 'drain', verb: 'drain', min: 12, hands: [6, 0, 3], kit: ['bowl', 'colander'], prepare: { lay: 10 } },
  { id: 'form', verb: 'form', min: 10, hands: [8, 0, 0], kit: ['form'] },
  { id: 'press', verb: 'press', min: 180, off: 0.05, hands: [3, 6, 3], kit: ['form'] },
  { id: 'store', verb: 'store', min: 3, hands: [3, 0, 0], kit: ['fridge'] },
];

/** Curd by heat and acid: a burner for an hour, and little else. */
export const BY_HEAT: readonly Line[] = [
  {
    id: 'heat',
    verb: 'heatWithAcid',
    min: 45,
    off: 0.2,
    hands: [2, 15, 5],
    kit: ['burner', 'pot'],
    prepare: { lay: 10 },
  },
  { id: 'rest', verb: 'settle', min: 10 },
  { id: 'scoop', verb: 'scoop', min: 8, hands: [8, 0, 0], kit: ['colander', 'bowl'] },
  { id: 'drain', verb: 'drain', min: 30, off: 0.3, hands: [0, 0, 2], kit: ['colander', 'bowl'] },
  { id: 'pack', verb: 'pack', min: 6, hands: [6, 0, 0] },
];
