import type { Context } from 'hono';
import type { z } from 'zod';
import type { Role } from '../../record/may-note.ts';

/** One line of the API: what OpenAPI says and what answers, side by side so that they cannot drift apart. */
export interface Route {
  readonly method: 'get' | 'post';
  /** Path in OpenAPI's form: `/api/streams/{streamId}/events`. */
  readonly path: string;
  /** The least role that may ask; a route that does not say is for makers alone. */
  readonly needs?: Role | 'anyone';
  readonly summary: string;
  readonly query?: z.ZodType;
  readonly body?: z.ZodType;
  /** Schema of the answer; left out where it is not JSON. */
  readonly result?: z.ZodType;
  /** What the answer is when it is not `application/json`. */
  readonly mediaType?: string;
  readonly answer: (c: Context) => Response | Promise<Response>;
}
