/** Reading a command's own flags: what is unknown or lacks a value is one clear line. */
import { parseArgs, type ParseArgsConfig } from 'node:util';
import { UsageError } from './world.ts';

type Options = NonNullable<ParseArgsConfig['options']>;
type Strict<T extends Options> = { readonly args: string[]; readonly options: T; readonly allowPositionals: true; readonly strict: true }; // prettier-ignore

/**
 * Parses arguments strictly. A negative number may follow its flag (`--milk -3L`): it is refused later as a value, not
 * here as a flag.
 * @throws UsageError
 */
export function readFlags<T extends Options>(input: {
  readonly args: readonly string[];
  readonly options: T;
  readonly command: string;
}): ReturnType<typeof parseArgs<Strict<T>>> {
  const { args, options, command } = input;
  try {
    return parseArgs<Strict<T>>({ args: joined(args, options), options, allowPositionals: true, strict: true });
  } catch (error) {
    if (!(error instanceof Error) || !('code' in error)) throw error;
    const [first = ''] = error.message.split('\n');
    const sentence = first.replace(/\. To specify a positional argument.*$/, '.').replace(/\.$/, '');
    throw new UsageError(`${sentence}. See vatside ${command} --help.`);
  }
}

/** `--milk -3L` as `--milk=-3L`. */
function joined(args: readonly string[], options: Options): string[] {
  const out: string[] = [];
  for (const arg of args) {
    const flag = out.at(-1)?.replace(/^--/, '');
    const before = out.at(-1);
    const takesText =
      before !== undefined && before.startsWith('--') && flag !== undefined && options[flag]?.type === 'string';
    if (takesText && /^-[\d.]/.test(arg)) out[out.length - 1] = `${before}=${arg}`;
    else out.push(arg);
  }
  return out;
}
