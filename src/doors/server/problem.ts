import type { Context } from 'hono';
import { HTTPException } from 'hono/http-exception';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import { InputError, problemText, type Problem } from '../../numbers/validity.ts';
import { isDiskFull } from '../../store/disk-full.ts';
import { StoreTooNewError, StoreUnreachableError } from '../../store/port.ts';
import { BusyError } from './busy.ts';

/** Longer values are not sent back. */
const ECHO_LENGTH = 200;

/** Said to a client, which keeps what it sent and comes again. */
const NO_ROOM =
  'The server’s disk is full: nothing new was kept here, what was kept before is safe. Make room on it, then send again';

/** Said where a program of another version has changed the store under this server. */
const TOO_NEW =
  'A newer Vatside has changed the store since this server started: nothing new was kept here, what was kept before is safe. Start the newer one in its place, then send again';

/** Where a refusal that names no field of the input has its cause, and what to do, by its status. */
const REFUSED: Readonly<Record<number, { readonly field: string; readonly remedy: string }>> = {
  401: { field: 'authorization', remedy: 'Pair this device at /pair, with the code that the sharing machine shows.' },
  403: { field: 'request', remedy: 'Ask from a page of this server, or as a device that may do this.' },
  404: { field: 'path', remedy: 'See /api/openapi.json for what there is.' },
  405: { field: 'method', remedy: 'Ask with one of the methods in the Allow line.' },
  409: { field: 'request', remedy: 'Change what stands in the way, then ask again.' },
  413: { field: 'body', remedy: 'Send less at once, in several requests.' },
  415: { field: 'content-type', remedy: 'Send JSON, and say so.' },
  429: { field: 'request', remedy: 'Wait for as long as the Retry-After line says.' },
};

/** What each problem becomes in an answer, on the wire as on the command line. */
function errorOf(problem: Problem): object {
  const { code, field, value, expected, remedy } = problem;
  const text = JSON.stringify(value);
  const echo = text === undefined ? null : text.length > ECHO_LENGTH ? `${text.slice(0, ECHO_LENGTH)}…` : value;
  return { code, field, value: echo, expected, message: problemText(problem), remedy };
}

/**
 * An answer that says what went wrong (problem details, RFC 9457), with every problem under `errors`.
 * Nothing of the program's inside is told.
 */
export function problemAnswer(
  c: Context,
  input: { readonly status: ContentfulStatusCode; readonly title: string; readonly problems?: readonly Problem[] },
): Response {
  const { status, title, problems = [] } = input;
  const detail = problems.map(problemText).join('\n');
  const body = {
    type: 'about:blank',
    title,
    status,
    ...(detail === '' ? {} : { detail }),
    errors: problems.length > 0 ? problems.map(errorOf) : refusalOf(status, title),
  };
  return c.body(JSON.stringify(body), status, { 'content-type': 'application/problem+json' });
}

/** A refusal without a field of the input says in the same form what it is about. */
function refusalOf(status: number, title: string): object[] {
  const refused = REFUSED[status];
  if (refused === undefined) return [];
  const { field, remedy } = refused;
  return [{ code: 'impossible', field, value: null, expected: title, message: `${title}. ${remedy}`, remedy }];
}

/** Turns whatever a route threw into an answer: bad input 400, outside a model 422, a store out of reach 503, a bug 500 and a line for the operator. */
export function answerError(error: Error, c: Context): Response {
  if (error instanceof InputError) {
    return error.outsideModel
      ? problemAnswer(c, { status: 422, title: 'Outside what the model was measured for', problems: error.problems })
      : problemAnswer(c, { status: 400, title: 'The input cannot be read as meant', problems: error.problems });
  }
  if (error instanceof HTTPException) {
    return problemAnswer(c, { status: error.status, title: error.message === '' ? 'Not possible' : error.message });
  }
  // The client keeps what it sent and comes again: 503 says that it may.
  if (error instanceof StoreUnreachableError || error instanceof BusyError) {
    c.header('retry-after', '5');
    return problemAnswer(c, { status: 503, title: error.message });
  }
  if (error instanceof StoreTooNewError) {
    console.error(
      `${error.message} This server was started before the store was changed, and keeps nothing new until then.`,
    );
    c.header('retry-after', '60');
    return problemAnswer(c, { status: 503, title: TOO_NEW });
  }
  if (isDiskFull(error)) {
    console.error('The disk that the log is kept on is full: nothing new can be kept until there is room.');
    return problemAnswer(c, { status: 507, title: NO_ROOM });
  }
  console.error(error);
  return problemAnswer(c, { status: 500, title: 'Something went wrong here; what was recorded is kept' });
}
