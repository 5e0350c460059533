import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { z } from 'zod';
import { rowsOf, textOf } from '../../../src/doors/web/instruments/read-rows.ts';
import { copyText } from '../../../src/exchange/copy/copy-text.ts';
import { endLine, headerLine } from '../../../src/exchange/copy/copy-format.ts';
import { eventJsonSchema } from '../../../src/exchange/json-schema.ts';
import { parseLogFile } from '../../../src/exchange/log-file.ts';
import { readLogger, settled } from '../../../src/exchange/logger/logger-file.ts';
import { proposeMapping } from '../../../src/exchange/logger/mapping.ts';
import { readMakeFile } from '../../../src/exchange/share/make-file.ts';
import { questionAddress, readQuestion } from '../../../src/exchange/share/question-link.ts';
import { sha256 } from '../../../src/exchange/copy/sha256.ts';
import { answersSchema } from '../../../src/make/setup.ts';
import { InputError } from '../../../src/numbers/validity.ts';
import { ALL_KINDS } from '../../../src/record/keeping-events.ts';
import { parseEvent } from '../../../src/record/parse-event.ts';
import { hostileTexts } from '../../hostile-texts.ts';
import { fromSchema, type Schema } from './from-schema.ts';
import { opened } from './opened-make.ts';
import { hostilePart, noJson, sentOf } from './spoilt.ts';

/** Everything that comes in as a file or a link, with something wrong in it. */

const MAKES = fileURLToPath(new URL('../../../makes/', import.meta.url));
/** No file of a few lines takes longer. */
const SLOWEST_MS = 2000;
const MORNING = Date.UTC(2026, 2, 4, 8);

interface Kind {
  readonly name: string;
  readonly text: fc.Arbitrary<string>;
  /** Reads it, and says what is wrong with what came in; may throw InputError. */
  readonly read: (text: string) => string | null;
}

/** A copy whose counts and sum fit what is in it, so that the events themselves are what is looked at. */
const copies: Kind = {
  name: 'a copy of the log',
  text: fc.oneof(
    {
      weight: 3,
      arbitrary: fc.array(sentOf(anyEvent()), { minLength: 1, maxLength: 4 }).map((lines) => summed(lines)),
    },
    { weight: 1, arbitrary: fc.tuple(fc.nat({ max: 4000 }), fc.constantFrom('', '\n', '\u0000', '{"__proto__":{"polluted":1}}\n', '\r', '\u2028')).map(([at, put]) => wholeCopy().slice(0, at) + put + wholeCopy().slice(at)) }, // prettier-ignore
    { weight: 1, arbitrary: fc.nat({ max: 8000 }).map((at) => wholeCopy().slice(0, at)) },
    { weight: 1, arbitrary: sentOf(fc.constant({ format: 'vatside-log', version: 1, events: opened() })) },
    { weight: 1, arbitrary: noJson },
  ),
  read(text) {
    const events = parseLogFile(text, ALL_KINDS);
    for (const event of events) parseEvent(JSON.parse(JSON.stringify(event)), ALL_KINDS);
    return null;
  },
};

const makes: Kind = {
  name: 'a make file',
  text: fc.oneof({ weight: 8, arbitrary: sentOf(fc.constantFrom(...shelf())) }, { weight: 1, arbitrary: noJson }),
  read(text) {
    const make = readMakeFile(text);
    return /^[a-z][a-z0-9-]*$/.test(make.id) ? null : `a make called ${make.id}`;
  },
};

const links: Kind = {
  name: 'a link to a plan',
  text: fc.oneof(
    fc.tuple(fromSchema(z.toJSONSchema(answersSchema, { io: 'input' }), z.toJSONSchema(answersSchema, { io: 'input' }) as Schema), hostilePart).map(([answers, part]) => `${linkOf(answers)}&${part}=1`), // prettier-ignore
    fc.array(fc.tuple(fc.constantFrom('make', 'milk.volumeL', 'milk.fatPercent', '__proto__.polluted', 'constructor.prototype.polluted', 'milk.__proto__.polluted', 'milk', 'carry', 'milk.volumeL.x', ''), hostilePart), { maxLength: 6 }).map((pairs) => `#make=stretched-ball&milk.volumeL=10&${pairs.map(([name, value]) => `${name}=${value}`).join('&')}`), // prettier-ignore
  ),
  read(text) {
    const question = readQuestion(text);
    return question === null || /^[a-z][a-z0-9-]{0,80}$/.test(question.makeId) ? null : `a make called ${question.makeId}`; // prettier-ignore
  },
};

const cell = fc.oneof(
  fc.constantFrom('08:05', '2026-03-04 08:05', '36.4', '97,2', '1772611200', '1e309', '-0', 'NaN', '9'.repeat(400), '0001-01-01 00:00', '9999-12-31 23:59', '"', '""', '\u0000', '\ud800'), // prettier-ignore
  fc.constantFrom(...hostileTexts()),
  fc.string({ unit: 'binary', maxLength: 12 }),
);
const loggers: Kind = {
  name: 'a file of a logger',
  text: fc
    .tuple(
      fc.constantFrom('Time;Temp (C);pH', 'Time,Temp °F', 'sec\tpH', '__proto__,constructor', 'No.|Date|Time|temp', ''),
      fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 30 }),
      fc.constantFrom(';', ',', '\t', '|'),
    )
    .map(([head, rows, cut]) => [head, ...rows.map((row) => row.join(cut))].join('\n')),
  read(text) {
    const bytes = new TextEncoder().encode(text);
    const rows = rowsOf(textOf(bytes.buffer));
    const proposed = proposeMapping(rows);
    const time = { column: 0, dateColumn: null, ...proposed.time, kind: proposed.time?.kind ?? ('stamp' as const) };
    const temperature = { column: 1, ...proposed.temperature, unit: proposed.temperature?.unit ?? ('C' as const) };
    const mapping = settled({ ...proposed, time, temperature, dayOrder: proposed.dayOrder ?? 'day-first' });
    if (mapping === null) return null;
    const { readings } = readLogger({ rows, mapping, day: { year: 2026, month: 3, day: 4 }, instantOf: (m) => Date.UTC(m.year, m.month - 1, m.day, m.hours, m.minutes, m.seconds), startedAt: MORNING, clockAheadMs: 0, fromAt: MORNING - 3_600_000, toAt: MORNING + 43_200_000, known: new Set() }); // prettier-ignore
    const wrong = readings.find(({ value, at }) => !Number.isFinite(value) || !Number.isSafeInteger(at));
    return wrong === undefined ? null : `a reading of ${wrong.value} at ${wrong.at}`;
  },
};

/** What the attack on imports found. */
export interface ImportsAttacked {
  readonly cases: number;
  readonly taken: number;
  readonly refused: number;
  readonly wrong: readonly string[];
}

/** Reads files and links of every kind: each is taken whole, or refused with a field and what to do. */
export function attackImports(input: { readonly seed: number; readonly runs: number }): ImportsAttacked {
  const { seed, runs } = input;
  const found = { cases: 0, taken: 0, refused: 0 };
  const wrong: string[] = [];
  const prototype = Object.getOwnPropertyNames(Object.prototype).join();
  for (const { name, text, read } of [copies, makes, links, loggers]) {
    for (const one of fc.sample(text, { seed, numRuns: Math.ceil(runs / 4) })) {
      const from = performance.now();
      const told = outcomeOf(() => read(one));
      const ms = performance.now() - from;
      found.cases++;
      if (told.isRefused) found.refused++;
      else found.taken++;
      const complaints = [
        ...told.wrong,
        ...(ms > SLOWEST_MS ? [`took ${Math.round(ms)} ms`] : []),
        ...(Object.getOwnPropertyNames(Object.prototype).join() === prototype
          ? []
          : ['every object has something new']),
      ];
      if (complaints.length > 0 && wrong.length < 20) wrong.push(`${name}: ${complaints.join('; ')}: ${JSON.stringify(one.slice(0, 500))}`); // prettier-ignore
    }
  }
  return { ...found, wrong };
}

function outcomeOf(read: () => string | null): { readonly isRefused: boolean; readonly wrong: readonly string[] } {
  try {
    const wrong = read();
    return { isRefused: false, wrong: wrong === null ? [] : [wrong] };
  } catch (error) {
    if (!(error instanceof InputError)) return { isRefused: true, wrong: [`ended with ${String(error)}`] };
    const bare = error.problems.find(({ field, remedy, expected }) => field === '' || remedy === '' || expected === '');
    return { isRefused: true, wrong: error.problems.length === 0 || bare !== undefined ? [`refused without a field or a remedy: ${error.message}`] : [] }; // prettier-ignore
  }
}

function anyEvent(): fc.Arbitrary<unknown> {
  const schema = eventJsonSchema() as Schema;
  return fc.oneof(fc.constantFrom(...opened()), fromSchema(schema, schema));
}

function summed(events: readonly string[]): string {
  const streams = new Set(events.map((text) => /"streamId":"([^"]*)"/.exec(text)?.[1] ?? ''));
  const before = headerLine({ streams: streams.size, events: events.length }) + events.map((text) => `${text.replaceAll('\n', ' ')}\n`).join(''); // prettier-ignore
  const sum = sha256();
  sum.update(before);
  return before + endLine(sum.hex());
}

const wholeCopy = (): string => copyText(new Map(opened().map((event) => [event.streamId, [event]])));

function shelf(): unknown[] {
  const files = readdirSync(MAKES).filter((name) => name.endsWith('.json'));
  return files.slice(0, 4).map((name) => JSON.parse(readFileSync(join(MAKES, name), 'utf8')) as unknown);
}

function linkOf(answers: unknown): string {
  const address = questionAddress({ base: '', question: { makeId: 'stretched-ball', answers: answersSchema.parse(answers) } }); // prettier-ignore
  return address.slice(address.indexOf('#'));
}
