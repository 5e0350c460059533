import type { Context } from 'hono';
import { HTTPException } from 'hono/http-exception';
import { InputError } from '../../numbers/validity.ts';

/** Deeper nesting than any event or sum has; schemas walk JSON by calling themselves. */
const DEEPEST = 64;

/**
 * The JSON of a request.
 * @throws HTTPException 415 when the request does not say it is JSON; InputError when it is not, or is nested too deep
 */
export async function readJson(c: Context): Promise<unknown> {
  const type = c.req.header('content-type') ?? '';
  if (!/^application\/json\s*(;|$)/i.test(type)) {
    throw new HTTPException(415, { message: 'Send JSON, and say so: content-type: application/json' });
  }
  const text = await c.req.text();
  if (nesting(text) > DEEPEST) throw unreadable(`JSON nested at most ${DEEPEST} deep`);
  try {
    return JSON.parse(text);
  } catch {
    throw unreadable('JSON text');
  }
}

function unreadable(expected: string): InputError {
  return new InputError([
    { code: 'unreadable', field: 'body', value: undefined, expected, remedy: 'See /api/openapi.json for the shape.' },
  ]);
}

/** Deepest nesting of brackets outside strings. */
function nesting(text: string): number {
  let depth = 0;
  let deepest = 0;
  let inString = false;
  for (let index = 0; index < text.length; index++) {
    const letter = text[index];
    if (inString) {
      if (letter === '\\') index++;
      else if (letter === '"') inString = false;
    } else if (letter === '"') inString = true;
    else if (letter === '[' || letter === '{') deepest = Math.max(deepest, ++depth);
    else if (letter === ']' || letter === '}') depth--;
  }
  return deepest;
}
