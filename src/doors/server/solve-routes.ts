import { z } from 'zod';
import { questionFrom, questionSchema } from '../../exchange/solve/solve-json.ts';
import { readAnswers } from '../../make/answers.ts';
import { isRecord } from '../../make/problems.ts';
import { answersSchema } from '../../make/setup.ts';
import { InputError } from '../../numbers/validity.ts';
import type { MakeShelf } from './make-routes.ts';
import { readJson } from './read-json.ts';
import type { Route } from './route.ts';
import type { AskedSolve, LongWork } from './aside/worked-out.ts';

const spread = z.object({ p5: z.number().nullable(), p25: z.number().nullable(), p50: z.number().nullable(), p75: z.number().nullable(), p95: z.number().nullable() }); // prettier-ignore
const setting = z.object({
  id: z.string(),
  value: z.number(),
  was: z.number(),
  isChanged: z.boolean(),
  low: z.number(),
  high: z.number(),
  atBound: z.enum(['low', 'high']).nullable(),
});
const way = z.object({
  settings: z.array(setting),
  probability: z.number(),
  plusMinus: z.number(),
  aims: z.array(z.object({ probability: z.number(), others: z.number(), spread })),
  endMin: spread,
  cheeseKg: spread,
  answers: answersSchema,
  startShiftMin: z.number(),
});
const resultSchema = z.object({
  question: questionSchema,
  answer: z.object({
    verdict: z.enum(['as-it-stands', 'reached', 'not-reached']),
    wanted: z.number(),
    asItStands: way,
    best: way,
    others: z.array(z.object({ kind: z.enum(['soonest', 'surest', 'for-this-aim', 'for-the-others']), way })),
    obstacle: z.object({ aim: z.int(), kind: z.enum(['out-of-reach', 'against-the-others']), way, probability: z.number() }).nullable(), // prettier-ignore
    unmoved: z.array(z.int()),
    findings: z.array(z.unknown()),
    seed: z.int(),
    modelVersion: z.string(),
    members: z.int(),
    runs: z.int(),
  }),
});

/** Settings that reach an aim, over HTTP: a make of the shelf, the kitchen's answers, the question. */
export function solveRoutes({ makes }: MakeShelf, solve: LongWork['solve']): Route[] {
  return [
    {
      method: 'post',
      path: '/api/solve',
      needs: 'reader',
      summary:
        'Settings of a make that reach what is wanted, how surely, and what they cost; or what stands in the way. Some seconds of work, one question after the other: 503 where too many wait.',
      body: z.strictObject({ makeId: z.string(), answers: answersSchema, question: questionSchema, seed: z.int().optional() }), // prettier-ignore
      result: resultSchema,
      answer: async (c) => c.json(await solve(askedOf(makes, await readJson(c)))),
    },
  ];
}

function askedOf(makes: MakeShelf['makes'], json: unknown): AskedSolve {
  const body = isRecord(json) ? json : {};
  const { makeId, seed } = body;
  const make = makes.find((one) => one.id === makeId);
  if (make === undefined) {
    throw new InputError([{ code: makeId === undefined ? 'missing' : 'unknown-choice', field: 'makeId', value: makeId, expected: makes.map((one) => one.id).join(', '), remedy: 'Name a make of GET /api/makes.' }]); // prettier-ignore
  }
  const read = readAnswers(body['answers']);
  if ('problems' in read) throw new InputError(read.problems);
  const question = questionFrom(body['question']);
  return { make, answers: read.answers, question, ...(typeof seed === 'number' ? { seed } : {}) };
}
