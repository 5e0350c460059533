/** The command line in this process, with streams, files and clock that a test holds. */
import { readFileSync } from 'node:fs';
import { main } from '../../src/doors/cli/command.ts';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Noon of the first of March 2026, on this device's own clock. */
const NOW = new Date(2026, 2, 1, 12, 0).getTime();

/**
 * Runs one command line.
 * @param input.line as typed, words apart by spaces; or the words themselves
 * @param input.stdin what is piped in; nothing where left out
 * @param input.files texts that stand in for files, by path
 */
export async function run(input: {
  readonly line: string | readonly string[];
  readonly stdin?: string;
  readonly files?: Readonly<Record<string, string>>;
}): Promise<Ran> {
  const { line, stdin, files = {} } = input;
  let [out, err] = ['', ''];
  const code = await main({
    argv: typeof line === 'string' ? line.split(' ').filter((word) => word !== '') : line,
    out: (text) => void (out += text),
    err: (text) => void (err += text),
    stdin: () => (stdin === undefined ? null : Promise.resolve(stdin)),
    readFile: (path) => files[path] ?? readFileSync(path, 'utf8'),
    now: () => NOW,
    columns: undefined,
    stopped: () => Promise.resolve(),
  });
  return { code, out, err };
}
