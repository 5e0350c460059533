/** `vatside calc`: every sum of the contract, asked and answered in JSON. */
import { answer, calculatorNamed } from '../../exchange/calc/answer.ts';
import { calculators } from '../../exchange/calc/registry.ts';
import type { Book } from '../../exchange/book.ts';
import { calcSchemas } from '../../exchange/calc/schema.ts';
import { calcText } from '../../exchange/text/calc-text.ts';
import { openWriter } from '../../exchange/written.ts';
import { columns } from '../../exchange/text/layout.ts';
import { InputError } from '../../numbers/validity.ts';
import { bookIn, sayIn } from './catalogues.ts';
import { codeOf, errorsJson, errorsText } from './errors.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { readJson } from './make-files.ts';
import { withValues } from './set-values.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = {
  list: { type: 'boolean' }, json: { type: 'boolean' }, schema: { type: 'boolean' }, text: { type: 'boolean' },
  input: { type: 'string' }, set: { type: 'string', multiple: true }, ...LANGUAGE_OPTIONS, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore

export const CALC_HELP = `vatside calc --list [--json]            the sums and what each answers
vatside calc <sum> --schema             JSON Schema of input and output, and an example
vatside calc <sum> < input.json         one sum; or --input file.json, or --set key=value (a.b=JSON) ...
vatside calc <sum> --text ...           the same answer for a person to read; --lang en-GB|en-US|es

Exit 0 with the answer; 2 for bad input, 3 for what the model cannot answer: {"errors": [...]} on stderr.
`;

/** Lists the sums, shows one's schema, or answers it. */
export async function calcCommand(world: World, args: readonly string[]): Promise<number> {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'calc' });
  const [name, ...more] = positionals;
  if (values.help === true) return say(world, CALC_HELP);
  if (values.list === true) return list(world, values.json === true, bookIn(languageOf(world, values)));
  if (name === undefined) throw new UsageError('name a sum, or list them: vatside calc --list.');
  if (more.length > 0) throw new UsageError(`one sum at a time; "${more.join(' ')}" is too many. Values go in --set key=value.`); // prettier-ignore
  try {
    if (values.schema === true) return say(world, `${JSON.stringify(calcSchemas(name), null, 2)}\n`);
    calculatorNamed(name);
    const input = withValues(await inputFrom(world, { file: values.input, hasValues: (values.set ?? []).length > 0 }), values.set ?? []); // prettier-ignore
    const language = languageOf(world, { ...values, json: values.text !== true });
    const words = sayIn(language);
    const envelope = answer({ name, input, say: words });
    if (values.text !== true) return say(world, `${JSON.stringify(envelope, null, 2)}\n`);
    const write = openWriter({ language, units: 'metric', timeZone: 'UTC', book: bookIn(language) });
    return say(world, calcText({ envelope, given: input, say: words, write }));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    world.err(values.text === true ? errorsText({ error }) : errorsJson(error));
    return codeOf(error);
  }
}

function say(world: World, text: string): number {
  world.out(text);
  return EXIT.answered;
}

function list(world: World, asJson: boolean, book: Book): number {
  const all = [...calculators.values()].map(({ name, answers }) => ({ name, answers: book.tell(answers) }));
  if (asJson) return say(world, `${JSON.stringify(all, null, 2)}\n`);
  const rows = all.map(({ name, answers }) => [name, answers]);
  return say(world, `${columns({ rows, width: world.columns ?? 110, indent: 0 }).join('\n')}\n`);
}

/** The input as JSON: from a file, or from what is piped in; nothing where all of it comes by `--set`. */
async function inputFrom(
  world: World,
  asked: { readonly file: string | undefined; readonly hasValues: boolean },
): Promise<unknown> {
  const { file, hasValues } = asked;
  if (file !== undefined) return readJson({ text: fileText(world, file), field: 'input', named: file });
  if (hasValues) return {};
  const piped = await world.stdin();
  if (piped === null || piped.trim() === '') {
    throw new InputError([
      {
        code: 'missing',
        field: 'input',
        value: undefined,
        expected: 'JSON on standard input, --input file.json, or --set key=value',
        remedy: 'See the fields with --schema.',
      },
    ]);
  }
  return readJson({ text: piped, field: 'input', named: 'standard input' });
}

function fileText(world: World, file: string): string {
  try {
    return world.readFile(file);
  } catch {
    throw new InputError([
      {
        code: 'unreadable',
        field: 'input',
        value: file,
        expected: 'a file that can be read',
        remedy: 'Check the path and that you may read it.',
      },
    ]);
  }
}
