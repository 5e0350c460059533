import { z } from 'zod';
import { eventSchema } from '../../record/event.ts';
import type { BatchList } from '../../store/batch-list.ts';
import { parsed } from './parsed.ts';
import type { Route } from './route.ts';

const PAGE = 50;
const LARGEST_PAGE = 200;
const LONGEST_SEARCH = 100;

const batchIdSchema = eventSchema.shape.streamId.refine((id) => id.startsWith('batch:'), { error: 'a batch: batch:…' });
const querySchema = z.object({
  search: z.string().max(LONGEST_SEARCH).optional(),
  make: z.string().min(1).max(80).optional(),
  before: batchIdSchema.optional(),
  limit: z.coerce.number().int().min(1).max(LARGEST_PAGE).default(PAGE),
});
const batchSchema = z.object({
  batchId: z.string(),
  makeId: z.string(),
  makeName: z.string(),
  name: z.string(),
  lotCode: z.string(),
  /** Milliseconds UTC, as all times here. */
  zeroAt: z.int(),
  state: z.enum(['ready', 'running', 'over']),
  finishedAt: z.int().nullable(),
  milkL: z.number().nullable(),
  cheeseKg: z.number().nullable(),
  last: z.int(),
  changedAt: z.int(),
});

/** Batches as a list shows them: a page at a time, by words, by make. */
export function batchRoutes({ batches }: { readonly batches: BatchList }): Route[] {
  return [
    {
      method: 'get',
      path: '/api/batches',
      needs: 'reader',
      summary: `Batches, the newest first, at most "limit" of them (${PAGE} unless given, ${LARGEST_PAGE} at most). "search": words that all stand in the name, lot, make or notes; "make": the id of a make; "before": the last batch you have, for the page after it. An empty list is the end.`,
      query: querySchema,
      result: z.object({ batches: z.array(batchSchema) }),
      async answer(c) {
        const { make, search, before, limit } = parsed(querySchema, c.req.query(), '');
        const query = { ...(search === undefined ? {} : { search }), ...(make === undefined ? {} : { makeId: make }), ...(before === undefined ? {} : { before }), limit }; // prettier-ignore
        return c.json({ batches: await batches.list(query) });
      },
    },
  ];
}
