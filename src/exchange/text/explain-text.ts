/** An explanation as text: the ranking with dots of twenty, why, one question, one reading, one change. */
import type { Explanation } from '../../forecast/explain.ts';
import type { FaultsSaid } from '../../forecast/explain-faults.ts';
import type { Plan } from '../../make/plan.ts';
import { explained, type ExplainedRow } from '../explained.ts';
import type { Say } from '../words.ts';
import type { Writer } from '../written.ts';
import { paragraph, plainSpaces, wrapped } from './layout.ts';

interface Told {
  readonly name: string;
  readonly plan: Plan;
  readonly faults: FaultsSaid | null;
  readonly explanation: Explanation;
  readonly say: Say;
  readonly write: Writer;
  readonly width: number;
  /** Every cause, not only the likeliest. */
  readonly all: boolean;
}

const DOTS = 20;

/** One batch; lines no wider than `width` characters. */
export function explainText(told: Told): string {
  const { say, width, faults, all } = told;
  const view = explained(told);
  const faultWords = (faults ?? []).filter(({ isThere }) => isThere).map(({ fault }) => say(`explain:fault.${fault}`));
  const under = (title: string, text: string | null | undefined): string[] =>
    text === null || text === undefined ? [] : ['', title, ...paragraph({ text, width })];
  const lines = [
    say('explain:titleOf', { name: told.name, make: told.plan.make.name }),
    ...(faultWords.length === 0 ? [] : paragraph({ text: faultWords.join('; '), width })),
    ...wrapped({ text: view.verdict, width }),
    '',
    ...view.rows.flatMap((row) => rowLines(row, told)),
    ...(all ? view.others.map((row) => headLine(row)) : paragraph({ text: say('explain:rest', { count: view.others.length }), width })), // prettier-ignore
    ...under(
      say('explain:question.title'),
      view.question && `${view.question.text} (--answer ${view.question.id}=yes)`,
    ),
    ...under(say('explain:missing.title'), view.apart),
    ...under(say('explain:next.title'), view.change?.text ?? nextText(told)),
  ];
  return `${plainSpaces(lines.join('\n'))}\n`;
}

const nextText = ({ explanation, say }: Told): string =>
  say(explanation.verdict === 'nothing' ? 'explain:next.none' : 'explain:next.cannot');

function rowLines(row: ExplainedRow, { say, width }: Told): string[] {
  const list = (title: string, texts: readonly string[]): string[] =>
    texts.length === 0
      ? []
      : [`    ${title}`, ...texts.flatMap((text) => wrapped({ text: `- ${text}`, width: width - 6, hang: 2 }).map((line) => `      ${line}`))]; // prettier-ignore
  return [
    headLine(row),
    ...(row.inside === null ? [] : wrapped({ text: `${say('explain:inside')} ${row.inside}.`, width: width - 4 }).map((line) => `    ${line}`)), // prettier-ignore
    ...list(say('explain:for'), row.speaksFor),
    ...list(say('explain:against'), row.speaksAgainst),
  ];
}

const headLine = ({ inTwenty, name, chance }: ExplainedRow): string =>
  `  ${'o'.repeat(inTwenty)}${'.'.repeat(DOTS - inTwenty)}  ${name}, ${chance}`;
