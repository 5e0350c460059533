/** A plan as one sheet of plain text, for a terminal or a printer. */
import { amountLines, shoppingLines } from './text/amounts-text.ts';
import { clockLines, readyLines } from './text/clock-text.ts';
import { plainSpaces, section, wrapped } from './text/layout.ts';
import { assumedLines, cautionLines, changedLines, sourceLines } from './text/notes-text.ts';
import { hotWaterLines, outcomeLines, readinessLines } from './text/outcome-text.ts';
import { finishOf } from './schedule.ts';
import { hoursText, type Sheet } from './text/telling.ts';

/** The whole sheet: when to start, amounts, shopping, what to have ready, the clock, what one gets, hot water, notes. */
export function planText(sheet: Sheet): string {
  const { say } = sheet;
  const parts: (readonly [string, readonly string[]])[] = [
    ['amounts', amountLines(sheet)],
    ['shopping', shoppingLines(sheet)],
    ['ready', readyLines(sheet)],
    ['clock', clockLines(sheet)],
    ['get', outcomeLines(sheet)],
    [sheet.plan.steps.some((step) => step.verb === 'stretch') ? 'readiness' : 'rests', readinessLines(sheet)],
    ['hot', hotWaterLines(sheet)],
    ['changed', changedLines(sheet)],
    ['assumed', assumedLines(sheet)],
    ['cautions', cautionLines(sheet)],
    ['sources', sourceLines(sheet)],
  ];
  const lines = [
    ...headLines(sheet),
    ...parts.flatMap(([id, body]) => section({ title: say(`plan-text:title.${id}`), lines: body })),
  ];
  return `${plainSpaces(lines.join('\n'))}\n`;
}

function headLines(sheet: Sheet): string[] {
  const { plan, schedule, say, both, width, clock, day } = sheet;
  const { milk } = plan.setup;
  const title = say(sheet.plan.make.milk.fill === 'whey' ? 'plan-text:head.titleWhey' : 'plan-text:head.title', {
    name: plan.make.name,
    milk: both.volume(milk.volumeL).text,
    treatment: say(`plan:options.milk.treatment.${milk.treatment}`),
    species: say(`plan:options.milk.species.${milk.species}`),
  });
  const finish = finishOf(sheet);
  const times = say(finish.lateAt === null ? 'plan-text:head.timesOpen' : 'plan-text:head.times', {
    day: day(schedule.zeroAt),
    start: clock(schedule.zeroAt),
    end: clock(finish.aboutAt),
    early: clock(finish.earlyAt),
    by: clock(finish.keptAt),
    late: finish.lateAt === null ? '' : clock(finish.lateAt),
    count: finish.keptIn20,
  });
  const handsMin = plan.steps.reduce((sum, { handsMin }) => sum + handsMin.start + handsMin.during + handsMin.end, 0);
  const length = say('plan-text:head.length', {
    total: hoursText((schedule.endAt - schedule.zeroAt) / 60_000),
    hands: hoursText(handsMin),
  });
  const tooLate =
    schedule.tooLate === null
      ? []
      : wrapped({ text: say('plan-text:head.tooLate', { day: day(schedule.tooLate.earliestEndAt), end: clock(schedule.tooLate.earliestEndAt) }), width }); // prettier-ignore
  return [title, ...wrapped({ text: times, width }), ...wrapped({ text: length, width }), ...tooLate, ...wrapped({ text: plan.make.about, width })]; // prettier-ignore
}
