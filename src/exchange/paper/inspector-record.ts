/**
 * The batch record for an inspector: what went in and from where, everything in the order it happened, what was set right
 * and by whom, and ruled blanks for what this program was never told. Fields after the trade notes, section 8.2.
 */
import type { BatchRecord, RecordEntry } from '../../record/batch-record.ts';
import type { Plan } from '../../make/plan.ts';
import { el, type PaperElement, type PaperSheet } from './element.ts';
import { facts, head, list, para, section, table } from './parts.ts';
import { degrees, kilograms, litres, quantityText, type Told } from './step-words.ts';

/** A line of the record in words, as the screen tells it too. */
export interface ToldLine {
  readonly eventId: string;
  readonly what: string;
  readonly was: readonly { readonly what: string; readonly clock: string; readonly note: string }[];
  readonly retracted: string | null;
}

/** Noted so long after it happened, an entry is marked as late. Our own choice. */
const LATE_MS = 15 * 60_000;
/** Lines for what left the house, and for what nobody has typed in. */
const OUT_LINES = 6;

export function inspectorSheet(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly lines: readonly ToldLine[];
  /** When each step was expected to begin as the batch was opened, milliseconds UTC; absent where nothing was kept. */
  readonly plannedAt: ReadonlyMap<string, number>;
  readonly lotNames: ReadonlyMap<string, string>;
  /** When it is printed, milliseconds UTC. */
  readonly printedAt: number;
  readonly told: Told;
}): PaperSheet {
  const { record, plan, told, printedAt } = input;
  const { say, write } = told;
  const people = [...new Set(record.entries.map(({ person }) => person).filter((person) => person !== ''))];
  const corrected = record.entries.filter(({ was, retracted }) => was.length > 0 || retracted !== null).length;
  return {
    id: 'inspector',
    title: say('paper:inspector.title', { lot: record.lotCode }),
    head: [plan.make.name, record.name, say('paper:inspector.lot', { lot: record.lotCode })].join(', '),
    isOnePage: false,
    body: [
      head({ title: say('paper:inspector.title', { lot: record.lotCode }), under: say('paper:inspector.under', { make: plan.make.name, day: write.date(record.zeroAt), printed: `${write.date(printedAt)} ${write.clock(printedAt)}` }) }),
      record.demo ? para(say('record:demo'), 'paper-loud') : null,
      record.finishedAt === null ? para(say('record:running'), 'paper-loud') : null,
      facts([
        { name: say('paper:inspector.lotCode'), value: record.lotCode },
        { name: say('paper:inspector.make'), value: say('paper:inspector.version', { name: plan.make.name, id: plan.make.id, version: plan.make.version }) },
        { name: say('paper:inspector.day'), value: write.date(record.zeroAt) },
        { name: say('paper:inspector.vat'), value: record.name },
        { name: say('paper:inspector.makers'), value: people.join(', ') },
        { name: say('paper:inspector.place'), value: null },
        { name: say('paper:inspector.licence'), value: null },
      ], 'wide'),
      section(say('paper:inspector.milk'), milk(input)),
      section(say('paper:inspector.additions'), additions(input)),
      section(say('paper:inspector.steps'), steps(input)),
      section(say('paper:inspector.deviations'), deviations(input)),
      section(say('paper:inspector.instruments'), instruments(input)),
      section(say('paper:inspector.yield'), outcome(input)),
      section(say('paper:inspector.out'), para(say('paper:inspector.outHow')), table({ head: ['date', 'piece', 'amount', 'whom'].map((id) => say(`paper:inspector.${id}`)), rows: Array.from({ length: OUT_LINES }, () => [null, null, null, null]) })),
      section(say('paper:inspector.events'), para(say('paper:inspector.eventsHow', { count: corrected })), entries(input)),
      section(say('paper:inspector.sign'), facts(['checkedBy', 'signature', 'date'].map((id) => ({ name: say(`paper:inspector.${id}`), value: null }))), list([say('paper:inspector.keep'), say('paper:inspector.noRuling')], 'paper-list paper-small')),
    ].filter((one) => one !== null),
  };
} // prettier-ignore

type Asked = Parameters<typeof inspectorSheet>[0];

function milk({ record, plan, lotNames, told }: Asked): PaperElement {
  const { say } = told;
  const { milk: into } = plan.setup;
  const lot = record.answers?.milk.lot;
  return facts([
    { name: say('paper:inspector.milkIn'), value: say('paper:milk', { amount: litres(told, into.volumeL), species: say(`plan:options.milk.species.${into.species}`), treatment: say(`plan:options.milk.treatment.${into.treatment}`) }) },
    { name: say('paper:inspector.milkLot'), value: lot === undefined ? null : (lotNames.get(lot) ?? lot) },
    { name: say('paper:inspector.arrived'), value: record.answers?.milk.temperatureC === undefined ? null : degrees(told, into.temperatureC, 1) },
    { name: say('paper:inspector.milkPH'), value: into.pH === undefined ? null : told.write.pH(into.pH).text },
    { name: say('paper:inspector.supplier'), value: null },
    { name: say('paper:inspector.heat'), value: null },
    { name: say('paper:inspector.inhibitors'), value: null },
  ], 'wide');
} // prettier-ignore

function additions({ record, plan, lotNames, told }: Asked): PaperElement {
  const { say, write } = told;
  const nameOf = (lot: string | undefined, ingredient: string): string | null => {
    const answers: Readonly<Record<string, unknown>> = record.answers ?? {};
    const of = answers[ingredient];
    const named = lot ?? (typeof of === 'object' && of !== null && 'lot' in of && typeof of.lot === 'string' ? of.lot : undefined); // prettier-ignore
    return named === undefined ? null : (lotNames.get(named) ?? named);
  };
  const planned = (ingredient: string): string => {
    const amount = plan.amounts.find(({ id }) => id === ingredient);
    return amount === undefined
      ? ''
      : quantityText({ unit: amount.unit, value: amount.value, also: amount.also, told });
  };
  return table({
    head: ['time', 'what', 'lotOf', 'planned', 'added', 'share', 'by'].map((id) => say(`paper:inspector.${id}`)),
    rows: record.added.map((one) => [
      write.clock(one.at),
      say(`record:ingredient.${one.ingredient}`),
      nameOf(one.lot, one.ingredient),
      planned(one.ingredient),
      addedText(one, told),
      write.percent(one.fractionOfPlan * 100).text,
      one.person === '' ? null : one.person,
    ]),
  });
}

const UNITS = ['g', 'mL', 'L', 'kg', 'drops', 'packets'] as const;

function addedText({ amount, unit }: { readonly amount: number; readonly unit: string }, told: Told): string {
  const known = UNITS.find((one) => one === unit);
  return known === undefined ? `${told.write.number(amount, 2)} ${unit}` : quantityText({ unit: known, value: amount, told });
} // prettier-ignore

/** Planned and actual, one row a step, with the last reading in it. */
function steps({ record, plan, plannedAt, told }: Asked): PaperElement {
  const { say, write } = told;
  const noted = new Map(record.steps.map((step) => [step.stepId, step]));
  return table({
    head: ['number', 'step', 'plannedAt', 'began', 'ended', 'readings'].map((id) => say(`paper:inspector.${id}`)),
    rows: plan.steps.map((step, index) => {
      const here = noted.get(step.id);
      const planned = plannedAt.get(step.id);
      const from = here?.startedAt ?? null;
      const to = here?.endedAt ?? null;
      const read = from === null ? [] : record.readings.filter(({ at }) => at >= from && at <= (to ?? Number.POSITIVE_INFINITY));
      return [
        String(index + 1),
        step.name,
        planned === undefined ? '' : write.clock(planned),
        from === null ? null : write.clock(from),
        to === null ? null : write.clock(to),
        read.map((one) => readingText(one, told)).join('; '),
      ];
    }),
  });
} // prettier-ignore

function readingText({ quantity, value, sample }: BatchRecord['readings'][number], told: Told): string {
  const { say, write } = told;
  const text = quantity === 'pH' ? write.pH(value).text : quantity === 'temperatureC' ? degrees(told, value, 1) : quantity === 'wheyL' ? litres(told, value) : quantity === 'massKg' ? kilograms(told, value) : quantity === 'flocculationMin' ? write.duration(value) : write.number(value, 1);
  return `${say(`record:quantity.${quantity}`)} ${text} ${say(`record:sample.${sample}`)}`;
} // prettier-ignore

function deviations({ record, lines, told }: Asked): PaperElement {
  const ids = new Set([...record.mishaps, ...record.choices].map(({ eventId }) => eventId));
  const said = entriesOf({ record, lines }).filter(({ line }) => ids.has(line.eventId));
  if (said.length === 0) return para(told.say('paper:inspector.noDeviations'));
  return list(said.map(({ line, entry }) => `${told.write.clock(entry.at)} ${line.what}${entry.person === '' ? '' : ` (${entry.person})`}`)); // prettier-ignore
}

/** Checks of thermometer and meter that were noted, and which instruments read. */
function instruments({ record, lines, told }: Asked): PaperElement {
  const checks = new Set(record.prepared.filter(({ value }) => value !== undefined).map(({ eventId }) => eventId));
  const noted = entriesOf({ record, lines }).filter(({ line }) => checks.has(line.eventId));
  const ids = [...new Set(record.readings.flatMap(({ instrumentId }) => (instrumentId === undefined ? [] : [instrumentId])))]; // prettier-ignore
  return facts([
    { name: told.say('paper:inspector.checks'), value: noted.map(({ line, entry }) => `${told.write.clock(entry.at)} ${line.what}`).join('; ') },
    { name: told.say('paper:inspector.used'), value: ids.join(', ') },
    { name: told.say('paper:inspector.cleaned'), value: null },
    { name: told.say('paper:inspector.brine'), value: null },
  ], 'wide');
} // prettier-ignore

function outcome({ record, told }: Asked): PaperElement {
  const { say, write } = told;
  const weighed = (what: string): string | null => {
    const last = record.weighed.filter((one) => one.what === what).at(-1);
    return last === undefined ? null : kilograms(told, last.massKg);
  };
  const pieces = record.weighed.filter(({ what }) => what === 'piece').map(({ massKg }) => kilograms(told, massKg));
  const label = record.labelled.at(-1);
  return facts([
    { name: say('record:weighed.drained-curd'), value: weighed('drained-curd') },
    { name: say('record:weighed.cheese'), value: weighed('cheese') },
    { name: say('paper:inspector.pieces'), value: pieces.join(', ') },
    { name: say('paper:inspector.label'), value: label === undefined ? null : [label.name, label.useBy ?? label.bestBefore ?? ''].join(' ').trim() },
    { name: say('paper:inspector.kept'), value: label === undefined ? null : degrees(told, label.keptAtC) },
    { name: say('paper:inspector.closed'), value: record.finishedAt === null ? null : `${write.shortDate(record.finishedAt)} ${write.clock(record.finishedAt)}` },
    { name: say('paper:inspector.released'), value: null },
    { name: say('paper:inspector.whey'), value: null },
  ], 'wide');
} // prettier-ignore

function entriesOf({ record, lines }: Pick<Asked, 'record' | 'lines'>): { line: ToldLine; entry: RecordEntry }[] {
  const byId = new Map(record.entries.map((entry) => [entry.eventId, entry]));
  return lines.flatMap((line) => {
    const entry = byId.get(line.eventId);
    return entry === undefined ? [] : [{ line, entry }];
  });
}

/** Every entry in the order it happened: earlier values struck through, late notes marked, who and when beside it. */
function entries(input: Asked): PaperElement {
  const { say, write } = input.told;
  const whole = (at: number): string => `${write.shortDate(at)} ${write.clock(at)}`;
  return el(
    'div',
    'paper-entries',
    entriesOf(input).map(({ line, entry }) => {
      const isLate = entry.loggedAt - entry.at > LATE_MS;
      return el(
        'div',
        'paper-entry',
        el('time', '', whole(entry.at)),
        el(
          'div',
          '',
          line.was.map((earlier) => el('p', 'paper-was', el('s', '', `${earlier.clock} ${earlier.what}`), ` ${earlier.note}`)),
          el('p', '', line.retracted === null ? line.what : el('s', '', line.what), line.retracted === null ? null : ` ${line.retracted}`),
          isLate ? el('p', 'paper-was', say('paper:inspector.late', { at: whole(entry.loggedAt) })) : null,
        ),
        el('span', '', entry.person),
      );
    }),
  );
} // prettier-ignore
