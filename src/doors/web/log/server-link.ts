import { z } from 'zod';
import { eventSchema, type Event } from '../../../record/event.ts';

/** The server could not be reached, or answered with something else than it promises. */
export class ServerUnreachableError extends Error {
  constructor(cause: unknown) {
    super('The server did not answer.', { cause });
    this.name = 'ServerUnreachableError';
  }
}

const answersSchema = z.object({
  answers: z.array(
    z.object({ id: z.string(), state: z.enum(['added', 'known', 'refused']), reason: z.string().optional() }),
  ),
});
export type PushAnswer = z.infer<typeof answersSchema>['answers'][number];

const streamsSchema = z.object({
  streams: z.array(z.object({ streamId: z.string(), last: z.int() })),
  /** The server's clock; one of an older build does not tell it. */
  now: z.int().optional(),
});
const pageSchema = z.object({ events: z.array(z.object({ n: z.int(), event: eventSchema })), last: z.int() });

/** The three requests that synchronising needs. */
export interface ServerLink {
  push(events: readonly Event[]): Promise<PushAnswer[]>;
  streams(): Promise<z.infer<typeof streamsSchema>>;
  page(input: { readonly streamId: string; readonly after: number }): Promise<z.infer<typeof pageSchema>>;
}

/** The link over `fetch`; `ask` is that function, or a test's. */
export function serverLink(ask: (path: string, init?: RequestInit) => Promise<Response>): ServerLink {
  const json = async <T>(schema: z.ZodType<T>, path: string, init?: RequestInit): Promise<T> => {
    try {
      const response = await ask(path, init);
      if (!response.ok) throw new Error(`${path} answered ${response.status}`);
      return schema.parse(await response.json());
    } catch (error) {
      throw new ServerUnreachableError(error);
    }
  };
  return {
    async push(events) {
      const init = {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ events }),
      };
      return (await json(answersSchema, '/api/events', init)).answers;
    },
    streams: () => json(streamsSchema, '/api/streams'),
    page: ({ streamId, after }) =>
      json(pageSchema, `/api/streams/${encodeURIComponent(streamId)}/events?after=${after}`),
  };
}
