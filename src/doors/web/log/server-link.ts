import { z } from 'zod';
import { eventSchema, type Event } from '../../../record/event.ts';

/** The server could not be reached, or answered with something else than it promises. */
export class ServerUnreachableError extends Error {
  constructor(cause: unknown) {
    super('The server did not answer.', { cause });
    this.name = 'ServerUnreachableError';
  }
}

/** The server is there, and reads, but has no room for anything new. */
export class ServerFullError extends Error {
  constructor() {
    super('The server has no room.');
    this.name = 'ServerFullError';
  }
}

/** Insufficient Storage (RFC 4918, 11.5): what a server answers whose disk is full. */
const NO_ROOM = 507;

const answersSchema = z.object({
  answers: z.array(
    z.object({ id: z.string(), state: z.enum(['added', 'known', 'refused']), reason: z.string().optional() }),
  ),
});
export type PushAnswer = z.infer<typeof answersSchema>['answers'][number];

const streamsSchema = z.object({
  /** `isOld`: a batch that is not among the newest; only a device that has it goes on with it. */
  streams: z.array(z.object({ streamId: z.string(), last: z.int(), isOld: z.boolean().optional() })),
  /** To ask on from; a server of an older build gives none, and every stream each time. */
  mark: z.int().optional(),
  /** Which store it has; one of an older build does not tell. */
  storeId: z.string().optional(),
  /** The server's clock; one of an older build does not tell it. */
  now: z.int().optional(),
});
const pageSchema = z.object({ streamId: z.string(), events: z.array(z.object({ n: z.int(), event: eventSchema })), last: z.int() }); // prettier-ignore
const pagesSchema = z.object({ pages: z.array(pageSchema) });
export type StreamPage = z.infer<typeof pageSchema>;

/** The three requests that synchronising needs. */
export interface ServerLink {
  /** @throws ServerFullError where it has no room for them */
  push(events: readonly Event[]): Promise<PushAnswer[]>;
  /** `newest`: what a device that opens follows, with so many of the newest batches; `since`: what has grown since a mark. */
  streams(input: { readonly newest?: number; readonly since?: number }): Promise<z.infer<typeof streamsSchema>>;
  /** Streams read on from places, each a part of the way; none of those that there was no room for. */
  pages(places: readonly { readonly streamId: string; readonly after: number }[]): Promise<readonly StreamPage[]>;
}

const posted = (body: object): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
});

/** The link over `fetch`; `ask` is that function, or a test's. */
export function serverLink(ask: (path: string, init?: RequestInit) => Promise<Response>): ServerLink {
  const json = async <T>(schema: z.ZodType<T>, path: string, init?: RequestInit): Promise<T> => {
    try {
      const response = await ask(path, init);
      if (response.status === NO_ROOM) throw new ServerFullError();
      if (!response.ok) throw new Error(`${path} answered ${response.status}`);
      return schema.parse(await response.json());
    } catch (error) {
      if (error instanceof ServerFullError) throw error;
      throw new ServerUnreachableError(error);
    }
  };
  return {
    async push(events) {
      return (await json(answersSchema, '/api/events', posted({ events }))).answers;
    },
    streams: ({ newest, since }) =>
      json(streamsSchema, `/api/streams?${[newest === undefined ? '' : `newest=${newest}`, since === undefined ? '' : `since=${since}`].filter((part) => part !== '').join('&')}`), // prettier-ignore
    async pages(places) {
      const asked = places.map(({ streamId, after }) => ({ streamId, after }));
      return (await json(pagesSchema, '/api/pages', posted({ places: asked }))).pages;
    },
  };
}
