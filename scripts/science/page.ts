/** One model as a Markdown page, and the index of all: read from the code, its docstrings and the published rows. */
import { z } from 'zod';
import { calculators } from '../../src/exchange/calc/registry.ts';
import type { Judged } from '../../tests/published/rows.ts';
import { functionDocs, moduleDoc, type FunctionDoc } from './docstrings.ts';
import { errorText, kindsText, number, publishedText, summaryText, toleranceText, verdictText } from './judged.ts';
import { MODELS, type ScienceModel } from './models.ts';

const validitySchema = z.record(
  z.string(),
  z.object({ low: z.number(), high: z.number(), unit: z.string(), source: z.string() }),
);

const MADE =
  '<!-- Written by scripts/write-science-pages.ts from the code and published/*.csv: change those, not this. -->';

const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('<', '&lt;');
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((row) => `| ${row.map(cell).join(' | ')} |`).join('\n');
const prose = (text: string): string => text.replaceAll('<', '&lt;').replaceAll('*', '\\*');
const list = (items: readonly string[]): string => items.map((item) => `- ${prose(item)}`).join('\n');

export async function modelPage(input: {
  readonly model: ScienceModel;
  readonly rows: readonly Judged[];
  readonly hasPlot: boolean;
}): Promise<string> {
  const { model, rows, hasPlot } = input;
  const docs = model.modules.flatMap((module) => functionDocs(module));
  const sections = [
    MADE,
    `# ${model.title}`,
    model.answers,
    asked(model),
    ...model.modules.flatMap((module) => {
      const says = moduleDoc(module);
      return says === null ? [] : [`\`${module}\`: ${prose(says)}`];
    }),
    ...(hasPlot ? [`![${model.title}](${model.id}.svg)`] : []),
    '## Equations',
    ...docs.flatMap(functionSection),
    '## Valid range',
    await validitySection(model),
    '## Against published values',
    ...publishedSection(rows),
    '## Sources',
    list(sourcesOf(docs, rows)),
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}

function asked(model: ScienceModel): string {
  const sums = model.calculators.flatMap((name) => {
    const sum = calculators.get(name);
    return sum === undefined ? [] : [`- \`vatside calc ${name}\`: ${prose(sum.answers)}`];
  });
  return sums.length === 0 ? '' : sums.join('\n');
}

function functionSection(doc: FunctionDoc): string[] {
  const lines = [
    doc.returns === null ? null : `Gives ${doc.returns}.`,
    doc.valid === null ? null : `Valid: ${doc.valid}`,
    doc.uncertainty === null ? null : `Uncertainty: ${doc.uncertainty}`,
    doc.assumes === null ? null : `Assumes: ${doc.assumes}`,
  ].flatMap((line) => (line === null ? [] : [line.replace(/\.\.$/, '.')]));
  return [
    `### \`${doc.name}\``,
    prose(doc.gives),
    ...doc.equation.map((text) => `> ${prose(text)}`),
    ...(doc.params.length === 0
      ? []
      : [
          table(
            ['input', 'meaning'],
            doc.params.map(({ name, says }) => [`\`${name.replace(/^\w+\./, '')}\``, says]),
          ),
        ]),
    ...(lines.length === 0 ? [] : [list(lines)]),
  ];
}

/** Every `…Validity` constant of the model's modules, as it stands in the code. */
async function validitySection(model: ScienceModel): Promise<string> {
  const rows: string[][] = [];
  for (const file of model.modules) {
    const name = file.replace(/\.ts$/, '');
    const module: unknown = await import(`../../src/science/${name}.ts`);
    const constants = Object.entries(z.looseObject({}).parse(module))
      .filter(([each]) => each.endsWith('Validity'))
      .sort(([one], [other]) => (one < other ? -1 : 1)); // a module's own order depends on who loads it
    for (const [constant, ranges] of constants) {
      for (const [field, range] of Object.entries(validitySchema.parse(ranges))) {
        const high = range.high === Number.MAX_VALUE ? 'no end' : number(range.high, 6);
        rows.push([`\`${constant}\``, `\`${field}\``, number(range.low, 6), high, range.unit, range.source]);
      }
    }
  }
  return rows.length === 0
    ? 'Stated with each function above.'
    : table(['constant', 'field', 'from', 'to', 'unit', 'why'], rows);
}

function publishedSection(rows: readonly Judged[]): string[] {
  if (rows.length === 0) return ['No published value with numbers was found to check this model against.'];
  const misses = rows.flatMap(({ row, reason }) => (reason === null ? [] : [`${row.case}: ${reason}`]));
  return [
    `${summaryText(rows)}.`,
    table(
      ['id', 'case', 'published', 'ours', 'error', 'tolerance', 'verdict'],
      rows.map((judged) => [
        judged.row.id,
        judged.row.case,
        publishedText(judged),
        number(judged.value, 4),
        errorText(judged),
        toleranceText(judged),
        verdictText(judged),
      ]),
    ),
    ...(misses.length === 0 ? [] : ['Known misses:', list(misses)]),
  ];
}

function sourcesOf(docs: readonly FunctionDoc[], rows: readonly Judged[]): string[] {
  const isReference = (text: string): boolean => !/^as `\w+`[^;,]*$/.test(text);
  const all = [...docs.flatMap(({ sources }) => sources).filter(isReference), ...rows.map(({ row }) => row.source)];
  const said = [...new Set(all.map((text) => text.replace(/\.$/, '').trim()))];
  return said.length === 0 ? ['as stated with each function'] : said;
}

/** The index: one line a model, and what the whole count rests on. */
export function indexPage(rows: readonly Judged[]): string {
  const within = rows.filter(({ passes }) => passes).length;
  const known = rows.filter(({ passes, reason }) => !passes && reason !== null).length;
  return `${[
    MADE,
    '# Models',
    'Each page says what a model answers, its equation, the range it is valid over, how it stands beside published values, and its sources. The published values are in `published/*.csv`, the reasons for known misses in `published/known-misses.csv`; `npm run published` prints every one.',
    table(
      ['model', 'answers', 'published values'],
      MODELS.map((model) => {
        const own = rows.filter(({ row }) => model.rows.test(row.id));
        return [
          `[${model.title}](${model.id}.md)`,
          model.answers,
          own.length === 0 ? 'none found' : (summaryText(own).split(';')[0] ?? ''),
        ];
      }),
    ),
    `In all ${within} of ${rows.length} published values lie within their tolerance; ${known} known misses. What they rest on, by their own source:`,
    list(kindsText(rows)),
  ].join('\n\n')}\n`;
}
