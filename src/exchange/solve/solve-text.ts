/** An answer as one sheet of plain text. */
import type { Answer, Question, Way } from '../../forecast/question.ts';
import { paragraph, plainSpaces, section } from '../text/layout.ts';
import { aimsText, chanceText, comesText, costText, nameOf, obstacleText, rangeText, unmovedTexts, valueText, verdictText, wayText, type Telling } from './solve-words.ts'; // prettier-ignore

/** Everything the sheet is told with. */
export interface SolveSheet extends Telling {
  readonly question: Question;
  readonly answer: Answer;
  readonly width: number;
  /** What to type to take a way into the plan; empty where nothing changes. */
  readonly toTake: (way: Way) => string;
}

/** What was asked, what would do it and what it costs, what else there is, and what stands in the way. */
export function solveText(sheet: SolveSheet): string {
  const { say, plan, write, answer, question } = sheet;
  const { best, asItStands } = answer;
  const parts: (readonly [string, readonly string[]])[] = [
    ['wanted', told(sheet, [`${capital(aimsText(question.aims, sheet))}.`])],
    ['free', told(sheet, asItStands.settings.map(({ id, low, high, was }) => say('solve:text.freeLine', { name: nameOf(id, sheet).replace(/:$/, ''), range: rangeText({ ...sheet, id, low, high }), now: valueText({ ...sheet, id, value: was }) })))],
    ['asItStands', told(sheet, [standing(sheet, asItStands)])],
    ['answer', told(sheet, [verdictText(answer, question, sheet), ...(best === asItStands ? [] : waySentences(sheet, best)), ...unmovedTexts(answer, question, sheet)])],
    ['others', answer.others.flatMap(({ kind, way }) => told(sheet, [`${kindText(sheet, kind)}: ${wayText(way, question, sheet)}`, ...waySentences(sheet, way)]))],
    ['obstacle', answer.obstacle === null ? [] : told(sheet, [obstacleText(answer.obstacle, question, sheet)])],
    ['cautions', told(sheet, answer.findings.map(({ code, fields }) => say(`findings:${code}`, fields)))],
  ]; // prettier-ignore
  const title = say('solve:text.title', { name: plan.make.name, milk: write.litres(plan.setup.milk.volumeL).text });
  const counted = say('solve:counted', { makes: answer.members, plusMinus: Math.max(1, Math.round(100 * best.plusMinus)) }); // prettier-ignore
  const lines = [
    title,
    ...parts.flatMap(([id, body]) => section({ title: say(`solve:text.${id}`), lines: body })),
    '',
    ...paragraph({ text: counted, width: sheet.width }),
  ];
  return `${plainSpaces(lines.join('\n'))}\n`;
}

const told = ({ width }: SolveSheet, texts: readonly string[]): string[] => texts.flatMap((text) => paragraph({ text, width, hang: 2 })); // prettier-ignore

/** The chance, and where each aim comes to. */
function standing(sheet: SolveSheet, way: Way): string {
  const { question, say } = sheet;
  const comes = question.aims.map((aim, index) => {
    const found = way.aims[index];
    return found === undefined ? '' : comesText(aim, found.spread, sheet);
  });
  return [`${capital(chanceText(way.probability, say))}.`, ...comes].join(' ');
}

/** What a way costs, where each aim comes to, and how to take it. */
function waySentences(sheet: SolveSheet, way: Way): string[] {
  const { answer, say, question } = sheet;
  const comes = question.aims.flatMap((aim, index) => {
    const found = way.aims[index];
    return found === undefined || aim.quantity === 'endMin' ? [] : [comesText(aim, found.spread, sheet)];
  });
  const toTake = sheet.toTake(way);
  return [
    [costText({ ...sheet, way, asItStands: answer.asItStands }), ...comes].join(' '),
    ...(toTake === '' ? [] : [`${say('solve:text.take')} ${toTake}`]),
  ];
}

function kindText({ answer, question, say, ...telling }: SolveSheet, kind: Answer['others'][number]['kind']): string {
  const aim = question.aims[answer.obstacle?.aim ?? 0];
  return say(`solve:kind.${kind}`, { what: aim === undefined ? '' : aimsText([aim], { say, ...telling }) });
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
