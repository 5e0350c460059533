/** A planned day as one sheet of plain text: the instructor's run, for a terminal or a printer. */
import { findingTexts, runLines, wayText, type DayTold } from './day-words.ts';
import { columns, paragraph, plainSpaces, section, wrapped } from './text/layout.ts';

const MINUTE_MS = 60_000;
const GRID_MIN = 5; // the end is told to five minutes, outward, as on the screen

/** When it begins and ends, what does not fit and what would, and what to do when. */
export function dayText(sheet: DayTold & { readonly width: number }): string {
  const { plan, say, write, width, zeroAt } = sheet;
  const at = (minutes: number): number => zeroAt + minutes * MINUTE_MS;
  const [startAt, endAt] = [at(plan.startMin), at(Math.ceil(plan.endMin / GRID_MIN) * GRID_MIN)];
  const isOneDay = write.day(startAt) === write.day(endAt);
  const span = say(isOneDay ? 'day:answer.span' : 'day:answer.spanDays', { start: write.clock(startAt), end: write.clock(endAt), day: write.day(endAt) }); // prettier-ignore
  const handsMin = plan.holds.filter(({ resource }) => resource === 'hands').reduce((sum, { fromMin, toMin }) => sum + toMin - fromMin, 0); // prettier-ignore
  const quality = plan.isProven ? say('day:answer.proven') : say('day:answer.near', { bound: write.clock(at(plan.boundMin)) }); // prettier-ignore
  const head = plan.pots.length === 0 ? [] : [
    `${write.day(startAt)}, ${span}`,
    ...wrapped({ text: `${say('day:answer.label')}. ${say('day:answer.work', { hands: write.duration(handsMin), total: write.duration(plan.endMin - plan.startMin) })} ${quality}`, width }),
  ]; // prettier-ignore
  const starts = plan.pots.map(({ potId, startMin }) => {
    const pot = sheet.pots.find(({ id }) => id === potId);
    return [write.clock(at(startMin)), pot?.name ?? '', pot?.makeName ?? ''];
  });
  const findings = findingTexts(sheet).flatMap((text) => paragraph({ text, width, hang: 2 }));
  const ways = plan.ways.flatMap((way) => wrapped({ text: `- ${wayText(way, sheet)}`, width, hang: 2 }));
  const trouble = say(ways.length > 0 || plan.pots.length === 0 ? 'day:trouble.title' : 'day:trouble.notes');
  const rows = runLines(sheet).flatMap((line) => [
    ...(line.day === null ? [] : [[line.day, '', '']]),
    [line.time ?? say('day:run.evening'), line.pots, line.more === '' ? line.what : `${line.what} (${line.more})`],
  ]);
  const isHot = plan.preparations.some(({ by }) => by === 'kettle' || by === 'burner');
  const run = [
    ...columns({ rows, width }),
    ...(isHot ? ['', ...wrapped({ text: say('day:run.caution'), width })] : []),
  ];
  return plainSpaces(
    [
      ...head,
      ...(starts.length === 0
        ? []
        : section({ title: say('day:makes.title'), lines: columns({ rows: starts, width }) })),
      ...(findings.length === 0 ? [] : section({ title: trouble, lines: findings })),
      ...(ways.length === 0 ? [] : section({ title: say('day:trouble.ways'), lines: ways })),
      ...(plan.pots.length === 0 ? [] : section({ title: say('day:run.title'), lines: run })),
    ].join('\n'),
  ).concat('\n');
}
