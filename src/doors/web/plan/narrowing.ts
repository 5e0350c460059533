import type { Forecast } from '../../../forecast/forecast.ts';
import type { Make } from '../../../make/make.ts';
import type { Plan } from '../../../make/plan.ts';
import { planMake } from '../../../make/planning.ts';
import { answersSchema, type Answers } from '../../../make/setup.ts';
import { InputError } from '../../../numbers/validity.ts';
import type { AsideQuestion } from '../forecasting/use-aside.ts';
import { withValue } from './with-value.ts';
import { isFactPath, type FactPath } from './draft-fields.ts';

/**
 * What a maker who did not say may just as well have, in canonical units. Common practice (no source); the rennet's
 * range is the planner's own for a bottle that does not tell.
 */
const OTHERWISE: Readonly<Partial<Record<FactPath, readonly (string | number | boolean)[]>>> = {
  'rennet.strengthImcuPerMl': [100, 280],
  'culture.form': ['frozen'],
  'culture.batchesWithLot': [10],
  'pot.keptWarm': ['open', 'towels', 'oven'],
  'pot.burner': ['small', 'large'],
  'room.temperatureC': [15, 25],
  'milk.fatPercent': [3, 4.5],
  'milk.homogenised': [true],
  'milk.temperatureC': [2, 12],
  'calcium.has': [false],
  'instruments.thermometerErrorC': [0.5, 2],
};

const AS_IT_STANDS = 'as it stands';
const BETWEEN = ' = ';
/** A smaller move of the finish is not worth a question. */
const LEAST_MOVE_MIN = 10;

/** The plan as it stands, and once for every way in which a gap may be filled otherwise. */
export function narrowingQuestions(input: {
  readonly make: Make;
  readonly plan: Plan;
  readonly answers: Answers;
}): AsideQuestion[] {
  const { make, plan, answers } = input;
  const open = plan.assumed.filter(({ span }) => span === undefined); // what was tested is known as well as it can be
  const otherwise = open.flatMap(({ field }) =>
    (isFactPath(field) ? (OTHERWISE[field] ?? []) : []).flatMap((value) => {
      const other = planOtherwise({ make, answers: withValue({ tree: answers, path: field, value }) });
      return other === null ? [] : [{ key: `${field}${BETWEEN}${String(value)}`, plan: other }];
    }),
  );
  return [{ key: AS_IT_STANDS, plan }, ...otherwise];
}

function planOtherwise(input: { readonly make: Make; readonly answers: unknown }): Plan | null {
  const answers = answersSchema.safeParse(input.answers);
  if (!answers.success) return null;
  try {
    return planMake({ make: input.make, answers: answers.data });
  } catch (error) {
    if (error instanceof InputError) return null; // that would not be this cheese
    throw error;
  }
}

/** The answer most worth giving, and how far the finish may lie elsewhere without it. */
export interface Narrowing {
  readonly path: string;
  readonly moveMin: number;
}

/** Compares the finishes: the gap whose other fillings move the end most, or null where none moves it noticeably. */
export function narrowest(answers: ReadonlyMap<string, Forecast>): Narrowing | null {
  const now = endOf(answers.get(AS_IT_STANDS));
  if (now === null) return null;
  let best: Narrowing | null = null;
  for (const [key, forecast] of answers) {
    const [path] = key.split(BETWEEN);
    const end = endOf(forecast);
    if (path === undefined || !key.includes(BETWEEN) || end === null) continue;
    const moveMin = Math.max(Math.abs(end.p50 - now.p50), now.p75 - now.p25 - (end.p75 - end.p25));
    if (Number.isFinite(moveMin) && moveMin >= Math.max(LEAST_MOVE_MIN, best?.moveMin ?? 0)) best = { path, moveMin };
  }
  return best;
}

// The middle half is compared: with so few members the far tails only make noise.
const endOf = (forecast: Forecast | undefined): Forecast['steps'][number]['endMin'] | null =>
  forecast?.steps.at(-1)?.endMin ?? null;
