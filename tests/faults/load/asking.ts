import { Agent, request } from 'node:http';

const agent = new Agent({ keepAlive: true, maxSockets: 64 });
const lines = new Agent({ keepAlive: true, maxSockets: Infinity });

/** Asks, and once more where the server had just closed a resting connection: nothing of the request was read then. */
export function ask(input: {
  readonly url: string;
  readonly path: string;
  readonly body?: string;
  readonly isAgain?: boolean;
}): Promise<string> {
  const { url, path, body, isAgain = false } = input;
  const headers = body === undefined ? {} : { 'content-type': 'application/json', 'content-length': Buffer.byteLength(body) }; // prettier-ignore
  return new Promise((resolve, reject) => {
    const asked = request(
      `${url}${path}`,
      { agent, method: body === undefined ? 'GET' : 'POST', headers },
      (answer) => {
        let text = '';
        answer.setEncoding('utf8').on('data', (part: string) => (text += part));
        answer.once('end', () => (answer.statusCode === 200 ? resolve(text) : reject(new Error(`${path}: ${answer.statusCode ?? 0} ${text.slice(0, 200)}`)))); // prettier-ignore
        answer.once('error', reject);
      },
    );
    asked.once('error', (error) => {
      if (!asked.reusedSocket || isAgain) reject(error);
      else ask({ ...input, isAgain: true }).then(resolve, reject);
    });
    asked.end(body);
  });
}

/** Opens a line that tells what has grown, and gives every state it names. */
export function hear(
  url: string,
  onState: (state: { readonly streamId: string; readonly last: number }) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const asked = request(url, { agent: lines }, (line) => {
      let text = '';
      line.setEncoding('utf8').on('data', (part: string) => {
        text += part;
        const end = text.lastIndexOf('\n\n');
        for (const [, streamId = '', last] of text.slice(0, end + 1).matchAll(/"streamId":"([^"]+)","last":(\d+)/g)) onState({ streamId, last: Number(last) }); // prettier-ignore
        text = text.slice(end + 2);
      });
      resolve();
    });
    asked.once('error', reject);
    asked.end();
  });
}

export interface Placed {
  readonly n: number;
  readonly event: { readonly id: string; readonly kind: string; readonly loggedAt: number };
}

/** All that the devices of a process found. */
export class Tally {
  readonly acknowledgedMs: number[] = [];
  readonly seenMs: number[] = [];
  /** Of apps that follow every vat. */
  readonly everywhereMs: number[] = [];
  readonly failures: string[] = [];
  pulls = 0;

  fail(error: unknown): void {
    if (this.failures.length < 20) this.failures.push(error instanceof Error ? error.message : String(error));
  }
}

/** One page of a stream. */
export async function pageOf(input: {
  readonly url: string;
  readonly streamId: string;
  readonly after: number;
  readonly tally: Tally;
}): Promise<{ readonly events: readonly Placed[]; readonly last: number }> {
  const { url, streamId, after, tally } = input;
  tally.pulls++;
  const text = await ask({ url, path: `/api/streams/${encodeURIComponent(streamId)}/events?after=${after}` });
  return JSON.parse(text) as { readonly events: readonly Placed[]; readonly last: number };
}
