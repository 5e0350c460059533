/** A sum's answer as plain text: the lines, words and roundings of the Bench, its drawing as a short table. */
import { isRecord } from '../../make/problems.ts';
import type { CalcEnvelope } from '../calc/answer.ts';
import { answerView, type AnswerLine, type AnswerTable } from '../told/answer-view.ts';
import { fieldsOfSum } from '../told/field-shapes.ts';
import { joined, saidNumber } from '../told/rounding.ts';
import { shapeOf } from '../told/sum-shapes.ts';
import { resultLabel, withLabels } from '../told/sum-words.ts';
import { unitOfField } from '../told/unit-of.ts';
import { valueAtPath } from '../told/value-at.ts';
import { told, type Say } from '../words.ts';
import type { Writer } from '../written.ts';
import { columns, paragraph, plainSpaces, section } from './layout.ts';

const WIDTH = 96;
const CURVE_ROWS = 12; // enough to see its course: our own choice
/** More columns than this stand under each other. */
const MOST_COLUMNS = 5;

interface Asked {
  readonly envelope: CalcEnvelope;
  /** The input as it was given, for units that it names. */
  readonly given: unknown;
  readonly say: Say;
  readonly write: Writer;
}

/** The envelope as lines: what was answered, then cautions, assumptions and sources. */
export function calcText(asked: Asked): string {
  const { envelope, say } = asked;
  const { name, result, cautions, sources } = envelope;
  const given = isRecord(asked.given) ? asked.given : {};
  const view = answerView({ ...asked, sum: name, shape: shapeOf(name), given, result, brief: true });
  const prose = (texts: readonly string[]): string[] =>
    texts.flatMap((text) => paragraph({ text: inWords(asked, text), width: WIDTH, hang: 2 }));
  const lines = [
    say(`bench:sums.${name}.title`),
    ...columns({ rows: [...view.first, ...view.more].map(lineRow), width: WIDTH }),
    ...curveLines(asked),
    ...view.tables.flatMap(tableLines),
    ...section({
      title: say('bench:cautions'),
      lines: columns({ rows: cautions.map(({ severity, text }) => [severity, inWords(asked, text)]), width: WIDTH }),
    }),
    ...section({ title: say('bench:assumptions'), lines: prose(envelope.assumptions) }),
    ...section({ title: say('bench:sources'), lines: prose(sources) }),
  ];
  return `${lines.map(plainSpaces).join('\n')}\n`;
}

/** Contract names inside a sentence as the words of their fields. */
function inWords({ envelope, say }: Asked, text: string): string {
  const paths = fieldsOfSum(envelope.name).map((field) => field.path);
  const results = isRecord(envelope.result) ? Object.keys(envelope.result) : [];
  const named = withUnits(told(say, text), paths).replaceAll(/: (true|false)\b/g, (_all, is: string) => `: ${say(`bench:options.any.${is === 'true' ? 'yes' : 'no'}`)}`); // prettier-ignore
  return withLabels({ text: named, say, sum: envelope.name, paths, results });
}

/** "roomC: 20" as "roomC: 20 °C": a bare number after a field's name gets the unit that the name stands for. */
function withUnits(text: string, paths: readonly string[]): string {
  return text.replaceAll(/([A-Za-z][\w.]*): (-?\d+(?:\.\d+)?)(?=$|[,;)]| (?:of|for|\())/g, (all, path: string) => {
    const { symbol } = unitOfField(path);
    return paths.includes(path) && symbol !== '' ? `${all} ${symbol}` : all;
  });
}

function lineRow({ label, said, span }: AnswerLine): string[] {
  const text = typeof said === 'string' ? said : joined(said);
  return [label, span === null ? text : `${text}, ${span}`];
}

/** Every so many points of what the Bench draws, the last one always. */
function curveLines(asked: Asked): string[] {
  const { envelope, say, write } = asked;
  const { plot } = shapeOf(envelope.name);
  if (plot?.kind !== 'curve' || plot.points.startsWith('input:')) return [];
  const found = valueAtPath(envelope.result, plot.points);
  const points = Array.isArray(found) ? found.filter(isRecord) : [];
  const every = Math.max(1, Math.ceil(points.length / CURVE_ROWS));
  const shown = points.filter((_, index) => index % every === 0 || index === points.length - 1);
  const keys = Object.keys(points[0] ?? {});
  const number = (value: number, key: string): string =>
    joined(saidNumber({ value, ends: null, unit: unitOfField(key), write }).said);
  const cell = (value: unknown, key: string): string => {
    if (typeof value === 'number') return number(value, key);
    const [middle, low, high] = ['p50', 'p5', 'p95'].map((end) => valueAtPath(value, end));
    if (typeof middle !== 'number' || typeof low !== 'number' || typeof high !== 'number') return '-';
    return `${number(middle, key)} (${number(low, key)} ${say('bench:to')} ${number(high, key)})`;
  };
  return tableLines({
    path: plot.points,
    caption: resultLabel({ say, sum: envelope.name, path: plot.points }),
    columns: keys.map((key) => resultLabel({ say, sum: envelope.name, path: key })),
    rows: shown.map((point) => keys.map((key) => cell(point[key], key))),
  });
}

function tableLines({ caption, columns: head, rows }: AnswerTable): string[] {
  if (rows.length === 0) return [];
  if (head.length <= MOST_COLUMNS)
    return ['', `  ${caption}`, ...columns({ rows: widestLast([head, ...rows]), width: WIDTH, indent: 4 })];
  const each = rows.flatMap((row) => [
    ...columns({ rows: head.map((label, index) => [label, row[index] ?? '']), width: WIDTH, indent: 4 }),
    '',
  ]);
  return ['', `  ${caption}`, ...each];
}

/** The longest column at the end, where it can be wrapped, if the page is too narrow for all of them. */
function widestLast(rows: readonly (readonly string[])[]): (readonly string[])[] {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => (row[column] ?? '').length + 2)));
  if (widths.reduce((sum, width) => sum + width, 4) <= WIDTH) return [...rows];
  const widest = widths.indexOf(Math.max(...widths.slice(1)), 1);
  return rows.map((row) => [...row.filter((_, column) => column !== widest), row[widest] ?? '']);
}
