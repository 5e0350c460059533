/** `vatside replay`: a finished record, what was forecast before each note, and what came. */
import { bothUnits } from '../../exchange/text/both-units.ts';
import { replayText } from '../../exchange/text/replay-text.ts';
import { replayOf } from '../../exchange/replay.ts';
import { foldBatch } from '../../record/fold.ts';
import { batchIdsOf } from './batch-ids.ts';
import { sayIn } from './catalogues.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { readRecordFile } from './record-file.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = {
  json: { type: 'boolean' }, text: { type: 'boolean' }, batch: { type: 'string' }, units: { type: 'string' }, ...LANGUAGE_OPTIONS, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore

export const REPLAY_HELP = `vatside replay <record.json> [--batch batch:id] [--units metric|us] [--lang es] [--json | --text]

Runs a record again: for every reading and judgement, what was forecast just before it and what came.
The file is a log saved by the app, {"events": [...]}, or a list of events.
`;

/** Replays every batch of the file, or the one named. */
export function replayCommand(world: World, args: readonly string[]): number {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'replay' });
  if (values.help === true) {
    world.out(REPLAY_HELP);
    return EXIT.answered;
  }
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new UsageError('give one file: vatside replay <record.json>.');
  const units = values.units ?? 'metric';
  if (units !== 'metric' && units !== 'us') throw new UsageError(`--units ${units}: expected metric or us.`);
  const language = languageOf(world, values);
  const events = readRecordFile(world, file);
  const replays = batchIdsOf({ events, batch: values.batch }).map((id) =>
    replayOf({ record: foldBatch(events.filter((event) => event.streamId === id)) }),
  );
  if (values.json === true) world.out(`${JSON.stringify(replays, null, 2)}\n`);
  else {
    const telling = {
      say: sayIn(language),
      both: bothUnits(units, language),
      width: Math.min(world.columns ?? 96, 110),
    };
    world.out(replays.map((replay) => replayText({ replay, ...telling })).join('\n'));
  }
  return EXIT.answered;
}
