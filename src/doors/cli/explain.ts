/** `vatside explain`: what may have gone wrong in a recorded make, cause by cause. */
import { explainAsked } from '../../exchange/explain-record.ts';
import { explainText } from '../../exchange/text/explain-text.ts';
import { openWriter } from '../../exchange/written.ts';
import { explain } from '../../forecast/explain.ts';
import { ANSWERS, QUESTIONS } from '../../forecast/explain-questions.ts';
import { foldBatch } from '../../record/fold.ts';
import { batchIdsOf } from './batch-ids.ts';
import { bookIn, sayIn } from './catalogues.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { readRecordFile } from './record-file.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = {
  json: { type: 'boolean' }, text: { type: 'boolean' }, batch: { type: 'string' }, units: { type: 'string' }, ...LANGUAGE_OPTIONS,
  answer: { type: 'string', multiple: true }, all: { type: 'boolean' }, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore

export const EXPLAIN_HELP = `vatside explain <record.json> [--batch batch:id] [--answer question=yes|no|not-sure ...] [--all]
                [--units metric|us] [--lang es] [--json | --text]

What may have gone wrong in a make: every cause weighed against its record, with what speaks for and against it, the
question that would help most, and one change for the next make. It may say that the record cannot tell.
The file is a log saved by the app, {"events": [...]}, or a list of events. Questions: ${QUESTIONS.map(({ id }) => id).join(', ')}.
`;

/** Explains every batch of the file, or the one named. */
export function explainCommand(world: World, args: readonly string[]): number {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'explain' });
  if (values.help === true) {
    world.out(EXPLAIN_HELP);
    return EXIT.answered;
  }
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new UsageError('give one file: vatside explain <record.json>.');
  const units = values.units ?? 'metric';
  if (units !== 'metric' && units !== 'us') throw new UsageError(`--units ${units}: expected metric or us.`);
  const said = (values.answer ?? []).map(answerOf);
  const language = languageOf(world, values);
  const events = readRecordFile(world, file);
  const say = sayIn(language);
  const told = batchIdsOf({ events, batch: values.batch }).map((id) => {
    const record = foldBatch(events.filter((event) => event.streamId === id));
    const asked = explainAsked({ record, say });
    const explanation = explain({ ...asked, answers: [...asked.answers, ...said] });
    return { batchId: id, name: record.name, plan: asked.plan, faults: asked.faults, explanation };
  });
  if (values.json === true) {
    const out = told.map(({ plan, ...one }) => ({ ...one, makeId: plan.make.id }));
    world.out(`${JSON.stringify(out, null, 2)}\n`);
  } else {
    const book = bookIn(language);
    const telling = { say, write: openWriter({ language, units }), width: Math.min(world.columns ?? 96, 110) };
    world.out(
      told
        .map((one) => explainText({ ...one, plan: book.plan(one.plan), ...telling, all: values.all === true }))
        .join('\n'),
    );
  }
  return EXIT.answered;
}

function answerOf(text: string): { question: string; answer: (typeof ANSWERS)[number] } {
  const [question = '', answer = ''] = text.split('=');
  const known = ANSWERS.find((one) => one === answer);
  if (!QUESTIONS.some(({ id }) => id === question)) throw new UsageError(`--answer ${text}: there is no question "${question}".`); // prettier-ignore
  if (known === undefined) throw new UsageError(`--answer ${text}: expected ${ANSWERS.join(', ')}.`);
  return { question, answer: known };
}
