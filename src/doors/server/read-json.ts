import type { Context } from 'hono';
import { HTTPException } from 'hono/http-exception';
import { checkedJson, DEEPEST } from '../../exchange/copy/checked-json.ts';
import { InputError } from '../../numbers/validity.ts';

/** An event may be as deep as in a copy; in a push it stands in a list in an object. */
const DEEPEST_REQUEST = DEEPEST + 2;

/**
 * The JSON of a request.
 * @throws HTTPException 415 when the request does not say it is JSON; InputError when it is not, or is nested too deep
 */
export async function readJson(c: Context): Promise<unknown> {
  const type = c.req.header('content-type') ?? '';
  if (!/^application\/json\s*(;|$)/i.test(type)) {
    throw new HTTPException(415, { message: 'Send JSON, and say so: content-type: application/json' });
  }
  const read = checkedJson(await c.req.text(), DEEPEST_REQUEST);
  if ('json' in read) return read.json;
  throw unreadable(read.fault === 'too-deep' ? `JSON nested at most ${DEEPEST_REQUEST} deep` : 'JSON text');
}

function unreadable(expected: string): InputError {
  return new InputError([
    { code: 'unreadable', field: 'body', value: undefined, expected, remedy: 'See /api/openapi.json for the shape.' },
  ]);
}
