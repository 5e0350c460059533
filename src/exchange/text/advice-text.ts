/** Course and choices as plain text. */
import { choiceTold, goOnTold, outsideTold, type ChoiceTold } from '../advice-told.ts';
import type { AdviceTelling } from '../chance-told.ts';
import { courseTold } from '../course-told.ts';
import type { RecordAdvice } from '../record-advice.ts';
import { paragraph, plainSpaces } from './layout.ts';

/** One batch: where it stands, then what can be done, each with what it would bring. */
export function adviceText(input: RecordAdvice & { readonly telling: AdviceTelling; readonly width: number }): string {
  const { advice, course, plan, name, telling, width } = input;
  const { say, write } = telling;
  const { text, because } = courseTold(course, plan, telling);
  const nowAt = telling.zeroAt + telling.nowMin * 60_000;
  const title = say('advice:text.title', { name, make: plan.make.name, day: write.day(nowAt), at: write.clock(nowAt) });
  const lines = [title, '', ...paragraph({ text: [text, because].filter((part) => part !== null).join(' '), width })];
  if ('outside' in advice) {
    const told = outsideTold(advice, telling);
    lines.push('', ...paragraph({ text: `${told.text} ${told.known}`, width }));
  } else {
    const choices = [
      goOnTold(advice, telling),
      ...advice.choices.map((choice) => choiceTold(choice, advice, null, telling)),
    ];
    lines.push('', say('advice:text.choices'), ...choices.flatMap((choice, index) => choiceLines(choice, index + 1, width, say('advice:risk.label')))); // prettier-ignore
    lines.push(...paragraph({ text: `${choices.length + 1}. ${say('advice:page.stop')}.`, width }));
  }
  return `${plainSpaces(lines.join('\n'))}\n`;
}

function choiceLines(choice: Omit<ChoiceTold, 'id'>, number: number, width: number, risk: string): string[] {
  const under = (text: string): string[] => paragraph({ text, width: width - 3 }).map((line) => `   ${line}`);
  return [
    ...paragraph({ text: `${number}. ${choice.title}`, width }),
    ...under([choice.done, ...choice.chances, choice.becomes].join(' ')),
    ...choice.risks.flatMap((text) => under(`${risk}: ${text}`)),
  ];
}
