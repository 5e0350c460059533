import ball from '../makes/stretched-ball.json' with { type: 'json' };
import string from '../makes/stretched-string.json' with { type: 'json' };
import type { History } from '../src/make/history.ts';
import { parseMake, type Make } from '../src/make/make.ts';
import type { Plan } from '../src/make/plan.ts';
import { planMake } from '../src/make/planning.ts';
import type { Answers } from '../src/make/setup.ts';

/** The makes as tests take them: read once, fitted to a kitchen in one line. */
export const MAKE_IDS = ['stretched-ball', 'stretched-string'] as const;
const JSONS = { 'stretched-ball': ball, 'stretched-string': string } as const;

export function makeNamed(id: (typeof MAKE_IDS)[number]): Make {
  return parseMake(JSONS[id]);
}

/** A plan for twelve litres of whole cow's milk, with whatever else is answered. */
export function planFor(
  input: {
    id?: (typeof MAKE_IDS)[number];
    milkL?: number;
    answers?: Omit<Answers, 'milk'> & { milk?: Partial<Answers['milk']> };
  } = {},
): Plan {
  const { id = 'stretched-ball', milkL = 12, answers = {} } = input;
  return planMake({ make: makeNamed(id), answers: { ...answers, milk: { volumeL: milkL, ...answers.milk } } });
}

/** A make under way: the steps up to and with `running`, ended at the given minutes. */
export function underWay(input: {
  nowMin: number;
  ended: readonly (readonly [stepId: string, endedMin: number])[];
  running: string;
  readings?: History['readings'];
  judgements?: History['judgements'];
}): History {
  let from = 0;
  const steps = input.ended.map(([stepId, endedMin]) => {
    const step = { stepId, startedMin: from, endedMin };
    from = endedMin;
    return step;
  });
  return {
    nowMin: input.nowMin,
    steps: [...steps, { stepId: input.running, startedMin: from }],
    readings: input.readings ?? [],
    judgements: input.judgements ?? [],
    additions: [],
  };
}

/** Milk to rennet on time; the gel is setting. */
export const TO_SETTING = [
  ['warm', 30],
  ['add-culture', 34],
  ['ripen', 80],
  ['add-calcium', 82],
  ['add-rennet', 84],
] as const;

/** On to the warm rest under the whey. */
export const TO_WHEY_REST = [
  ...TO_SETTING,
  ['set', 118],
  ['cut', 126],
  ['heal', 133],
  ['stir', 158],
  ['settle', 163],
  ['draw-whey', 169],
  ['wash', 177],
  ['stir-warm', 187],
] as const;

/** On to drained curd kept warm. */
export const TO_DRAINED_REST = [...TO_WHEY_REST, ['rest-in-whey', 230], ['drain', 242]] as const;
