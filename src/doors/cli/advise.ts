/** `vatside advise`: a record under way, whether it is on course, and what could be done from there. */
import { recordAdvice } from '../../exchange/record-advice.ts';
import { adviceText } from '../../exchange/text/advice-text.ts';
import { openWriter } from '../../exchange/written.ts';
import { InputError } from '../../numbers/validity.ts';
import { foldBatch } from '../../record/fold.ts';
import { sayIn } from './catalogues.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { makeIds, readMake } from './make-files.ts';
import { readRecordFile } from './record-file.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = {
  json: { type: 'boolean' }, text: { type: 'boolean' }, batch: { type: 'string' }, minute: { type: 'string' }, seed: { type: 'string' },
  units: { type: 'string' }, ...LANGUAGE_OPTIONS, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore

export const ADVISE_HELP = `vatside advise <record.json> [--minute 240] [--batch batch:id] [--seed 1] [--units metric|us] [--lang es] [--json | --text]

Where a record stands: on course, early, late or off, and why; and up to four things that could be done from there,
each with when it would be done and the chance of its aims. --minute is counted from the batch's start; the last
note where left out. The file is a log saved by the app, {"events": [...]}, or a list of events.
`;

/** Advises on one batch of the file. */
export function adviseCommand(world: World, args: readonly string[]): number {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'advise' });
  if (values.help === true) {
    world.out(ADVISE_HELP);
    return EXIT.answered;
  }
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new UsageError('give one file: vatside advise <record.json>.');
  const units = values.units ?? 'metric';
  if (units !== 'metric' && units !== 'us') throw new UsageError(`--units ${units}: expected metric or us.`);
  const language = languageOf(world, values);
  const events = readRecordFile(world, file);
  const ids = [...new Set(events.map((event) => event.streamId))].filter((id) => id.startsWith('batch:'));
  const id = values.batch ?? ids.at(-1);
  if (id === undefined || !ids.includes(id)) {
    throw new InputError([{ code: 'missing', field: 'batch', value: values.batch, expected: ids.length === 0 ? 'events of a batch in the file' : `one of ${ids.join(', ')}`, remedy: 'Choose a record of a make.' }]); // prettier-ignore
  }
  const record = foldBatch(events.filter((event) => event.streamId === id));
  const lastAt = record.entries.reduce((latest, entry) => Math.max(latest, entry.at), record.zeroAt);
  const nowAt = values.minute === undefined ? lastAt : record.zeroAt + 60_000 * numberOf('minute', values.minute);
  const seed = values.seed === undefined ? {} : { seed: numberOf('seed', values.seed) };
  const advised = recordAdvice({ record, nowAt, others: makeIds().map((make) => readMake(world, make)), ...seed });
  if (values.json === true) {
    const { course, advice, batchId } = advised;
    const answer = { batchId, nowMin: (nowAt - record.zeroAt) / 60_000, course, advice };
    world.out(`${JSON.stringify(answer, named, 2)}\n`);
  } else {
    const write = openWriter({ language, units });
    const telling = { say: sayIn(language), write, zeroAt: record.zeroAt, nowMin: (nowAt - record.zeroAt) / 60_000 };
    world.out(adviceText({ ...advised, telling, width: Math.min(world.columns ?? 96, 110) }));
  }
  return EXIT.answered;
}

/** A make that a choice leads to stands in the answer by its id; the shelf has the rest. */
const named = (key: string, value: unknown): unknown =>
  key === 'make' && typeof value === 'object' && value !== null && 'id' in value ? value.id : value;

function numberOf(name: string, text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value)) throw new UsageError(`--${name} ${text}: expected a number.`);
  return value;
}
