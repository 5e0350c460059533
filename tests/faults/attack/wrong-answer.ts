import { z } from 'zod';

/** A refusal as everybody is promised it: what is wrong, where, and what to do. */
const problemSchema = z.object({
  title: z.string().min(1),
  status: z.int(),
  errors: z
    .array(z.object({ code: z.string().min(1), field: z.string().min(1), expected: z.string().min(1), message: z.string().min(1), remedy: z.string().min(1) }))
    .min(1),
}); // prettier-ignore

/** A refusal names what is wrong; it does not send back all of it. */
const LONGEST_REFUSAL = 64 * 1024;

const OPENER = 'cross-origin-opener-policy';
const HEADERS: Readonly<Record<string, RegExp>> = {
  'content-security-policy':
    /^default-src 'none'; script-src 'self'; style-src 'self';(?!.*unsafe).*frame-ancestors 'none'/,
  'x-content-type-options': /^nosniff$/,
  'referrer-policy': /^no-referrer$/,
  'x-frame-options': /^DENY$/,
  [OPENER]: /^same-origin$/,
  'cross-origin-resource-policy': /^same-origin$/,
};
const SECRETS = /node_modules|\.ts:\d|\bat \w+ \(|SQLITE|select |insert into/;

const PROTOTYPE = Object.getOwnPropertyNames(Object.prototype).join();
const ARRAY = Object.getOwnPropertyNames(Array.prototype).join();

/** What of an answer is not as promised, whatever was asked. */
export function wrongWith(input: {
  readonly answer: Response;
  readonly text: string;
  readonly method: string;
  /** Over plain HTTP from another machine, where browsers heed no opener policy and complain of it. */
  readonly isPlain?: boolean;
}): string[] {
  const { answer, text, method, isPlain = false } = input;
  const { status, headers } = answer;
  const wrong = Object.entries(HEADERS)
    .filter(([name, wanted]) => !wanted.test(headers.get(name) ?? '') && !(isPlain && name === OPENER))
    .map(([name]) => `${status} with ${name}: ${headers.get(name) ?? 'none'}`);
  for (const name of ['server', 'x-powered-by', 'access-control-allow-origin']) if (headers.has(name)) wrong.push(`says ${name}`); // prettier-ignore
  if (status >= 500) wrong.push(`${status} ${text.slice(0, 300)}`);
  if (status === 405 && (headers.get('allow') ?? '') === '') wrong.push('405 without what is allowed');
  if (SECRETS.test(text) && status >= 400) wrong.push(`tells of its inside: ${text.slice(0, 300)}`);
  if (status >= 400 && method !== 'HEAD')
    wrong.push(...wrongRefusal({ status, text, type: headers.get('content-type') }));
  if (Object.getOwnPropertyNames(Object.prototype).join() !== PROTOTYPE || Object.getOwnPropertyNames(Array.prototype).join() !== ARRAY) {
    wrong.push('every object has something new');
  } // prettier-ignore
  return wrong;
}

function wrongRefusal({ status, text, type }: { status: number; text: string; type: string | null }): string[] {
  if (type !== 'application/problem+json') return [`${status} as ${type ?? 'nothing'}`];
  if (text.length > LONGEST_REFUSAL) return [`${status} of ${text.length} characters`];
  const read = problemSchema.safeParse(JSON.parse(text));
  if (!read.success) return [`${status} without ${read.error.issues.map(({ path }) => path.join('.')).join(', ')}: ${text.slice(0, 300)}`]; // prettier-ignore
  return read.data.status === status ? [] : [`${status} that says ${read.data.status}`];
}
