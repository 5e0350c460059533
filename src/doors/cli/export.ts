/** `vatside export`: a make or a record in another form, to the standard output. */
import { handOutSheet } from '../../exchange/paper/hand-out.ts';
import { paperDocument } from '../../exchange/paper/html.ts';
import type { Told } from '../../exchange/paper/step-words.ts';
import { studentSheet } from '../../exchange/paper/student-sheet.ts';
import { scheduleOf } from '../../exchange/schedule.ts';
import { makeCalendar } from '../../exchange/share/make-calendar.ts';
import { makeCsv } from '../../exchange/share/make-csv.ts';
import { makeFileText } from '../../exchange/share/make-file.ts';
import { recipeOf, recipeText } from '../../exchange/share/recipe.ts';
import { recordCsv } from '../../exchange/share/record-csv.ts';
import { bothUnits } from '../../exchange/text/both-units.ts';
import type { Sheet } from '../../exchange/text/telling.ts';
import { openWriter } from '../../exchange/written.ts';
import { simulate } from '../../forecast/simulate.ts';
import type { Make } from '../../make/make.ts';
import { planMake } from '../../make/planning.ts';
import { InputError } from '../../numbers/validity.ts';
import { foldBatch } from '../../record/fold.ts';
import { batchIdsOf } from './batch-ids.ts';
import { bookIn, sayIn } from './catalogues.ts';
import { codeOf, errorsText } from './errors.ts';
import { DATA_OPTION } from './copy/chosen.ts';
import { exportAll } from './export-all.ts';
import { EXPORT_HELP } from './export-help.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { makeIds, readMake } from './make-files.ts';
import { WIDTH } from './plan.ts';
import { ANSWER_OPTIONS, answersFrom, flagFor, type AnswerFlags } from './plan-answers.ts';
import { wishFrom } from './plan-when.ts';
import { readRecordFile } from './record-file.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = {
  ...ANSWER_OPTIONS, ...LANGUAGE_OPTIONS, ...DATA_OPTION, all: { type: 'string' },
  as: { type: 'string' }, record: { type: 'string' }, batch: { type: 'string' }, author: { type: 'string' }, licence: { type: 'string' },
  start: { type: 'string' }, 'done-by': { type: 'string' }, date: { type: 'string' }, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore

const FORMS = ['file', 'hand-out', 'student', 'recipe', 'steps', 'calendar'] as const;
const USUAL_MILK = '10L'; // a kitchen pot; our own choice

/** Writes a make or a record in another form. */
export function exportCommand(world: World, args: readonly string[]): number | Promise<number> {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'export' });
  if (values.help === true) {
    world.out(EXPORT_HELP);
    return EXIT.answered;
  }
  const [named, ...more] = positionals;
  if (values.all !== undefined) {
    if (named !== undefined || values.as !== undefined || values.record !== undefined) throw new UsageError('--all writes everything into a folder, and takes no make, --as or --record.'); // prettier-ignore
    return exportAll(world, { ...values, all: values.all });
  }
  if (more.length > 0) throw new UsageError(`one make at a time; "${more.join(' ')}" is too many.`);
  if (values.record !== undefined) return exportRecord(world, { file: values.record, as: values.as, batch: values.batch }); // prettier-ignore
  if (named === undefined) throw new UsageError(`name the make: vatside export <make> --as hand-out. Makes: ${makeIds().join(', ')}.`); // prettier-ignore
  const form = FORMS.find((one) => one === (values.as ?? 'file'));
  if (form === undefined) throw new UsageError(`--as ${values.as ?? ''}: expected ${FORMS.join(', ')}.`);
  try {
    const make = readMake(world, named);
    world.out(form === 'file' ? makeFileText(make) : formOf(world, { make, form, values }));
    return EXIT.answered;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    world.err(errorsText({ error, flagOf: flagFor }));
    return codeOf(error);
  }
}

function exportRecord(
  world: World,
  { file, as, batch }: { readonly file: string; readonly as: string | undefined; readonly batch: string | undefined },
): number {
  if (as !== undefined && as !== 'csv') throw new UsageError(`--as ${as}: a record is written as csv.`);
  const events = readRecordFile(world, file);
  for (const id of batchIdsOf({ events, batch })) {
    world.out(recordCsv(foldBatch(events.filter((event) => event.streamId === id))));
  }
  return EXIT.answered;
}

interface Values extends AnswerFlags {
  readonly start?: string;
  readonly 'done-by'?: string;
  readonly date?: string;
  readonly author?: string;
  readonly licence?: string;
  readonly lang?: string;
  readonly language?: string;
}

function formOf(
  world: World,
  {
    make,
    form,
    values,
  }: { readonly make: Make; readonly form: Exclude<(typeof FORMS)[number], 'file'>; readonly values: Values },
): string {
  const language = languageOf(world, values);
  const asked = values['milk'] === undefined ? { ...values, milk: USUAL_MILK } : values;
  const plan = planMake({ make, answers: answersFrom(asked) });
  const forecast = simulate({ plan, seed: 1 });
  const wish = wishFrom({ start: values.start, doneBy: values['done-by'], date: values.date, now: world.now() });
  const schedule = scheduleOf({ plan, forecast, wish, now: world.now() });
  const units = plan.setup.units === 'us' ? 'us' : 'metric';
  const write = openWriter({ language, units });
  const told: Told = { say: sayIn(language), write, both: bothUnits(units, language), isInBoth: form !== 'student' };
  const spoken = bookIn(language).plan(plan);
  if (form === 'steps') return makeCsv(spoken);
  if (form === 'hand-out') return paperDocument({ sheets: [handOutSheet({ plan: spoken, forecast, notes: {}, told })], language }); // prettier-ignore
  if (form === 'student') return paperDocument({ sheets: [studentSheet({ plan: spoken, pot: { name: null, lotCode: null, day: null }, lastStepId: schedule?.lastStepId, told })], language }); // prettier-ignore
  if (schedule === null) throw new UsageError('fewer than half of such makes come to an end, so there is no clock to give.'); // prettier-ignore
  const sheet: Sheet = { plan: spoken, forecast, schedule, now: world.now(), spoonDelayMin: null, say: told.say, both: told.both, write, clock: write.clock, day: write.day, wayToAnswer: (field) => field, width: WIDTH.usual }; // prettier-ignore
  if (form === 'calendar') return makeCalendar({ sheet, told, id: `${make.id}.${schedule.zeroAt}`, madeAt: world.now() }); // prettier-ignore
  const { author, licence } = values;
  const recipe = recipeOf({ sheet, told, language, ...(author === undefined ? {} : { author }), ...(licence === undefined ? {} : { license: licence }) }); // prettier-ignore
  return recipeText(recipe);
}
