import { z } from 'zod';
import { readJson } from './read-json.ts';
import type { Route } from './route.ts';

/** One sum as the server offers it. */
export interface Sum {
  readonly name: string;
  /** One line: what it answers. */
  readonly answers: string;
  readonly input: z.ZodType;
  readonly result: z.ZodType;
  readonly example: unknown;
  /**
   * The answer as it goes on the wire.
   * @throws InputError for input that cannot be answered
   */
  readonly answer: (json: unknown) => object | Promise<object>;
}

export type Sums = ReadonlyMap<string, Sum>;

const cautionSchema = z.object({ id: z.string(), severity: z.enum(['info', 'caution', 'stop']), text: z.string() });

/** The sums over HTTP: one list, and for each its description and its answer. */
export function sumRoutes(sums: Sums): Route[] {
  const list: Route = {
    method: 'get',
    path: '/api/calc',
    needs: 'reader',
    summary: 'The sums there are and what each answers.',
    result: z.object({ sums: z.array(z.object({ name: z.string(), answers: z.string() })) }),
    answer: (c) => c.json({ sums: [...sums.values()].map(({ name, answers }) => ({ name, answers })) }),
  };
  const each = [...sums.values()].flatMap((sum): Route[] => [
    {
      method: 'get',
      path: `/api/calc/${sum.name}`,
      needs: 'reader',
      summary: `Schemas and an example of: ${sum.answers}`,
      result: z.object({
        name: z.string(),
        answers: z.string(),
        input: z.unknown(),
        result: z.unknown(),
        example: z.unknown(),
      }),
      answer: (c) => c.json(describe(sum)),
    },
    {
      method: 'post',
      path: `/api/calc/${sum.name}`,
      needs: 'reader',
      summary: sum.answers,
      body: sum.input,
      result: z.object({
        name: z.literal(sum.name),
        result: sum.result,
        cautions: z.array(cautionSchema),
        assumptions: z.array(z.string()),
        sources: z.array(z.string()),
      }),
      answer: async (c) => c.json(await sum.answer(await readJson(c))),
    },
  ]);
  return [list, ...each];
}

function describe(sum: Sum): object {
  const { name, answers, example } = sum;
  return {
    name,
    answers,
    input: z.toJSONSchema(sum.input, { io: 'input', unrepresentable: 'any' }),
    result: z.toJSONSchema(sum.result, { unrepresentable: 'any' }),
    example,
  };
}
