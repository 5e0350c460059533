/** A planned day in words: what to do when, what stands in the way, what would make it fit; for the screen and the command line. */
import type { DayFinding, DayPlan, DayWay } from '../forecast/day/day.ts';
import { sentenceInUnits } from '../make/sentence.ts';
import { dayLines, type DayLine, type DayPotTold } from './day-told.ts';
import type { Say } from './words.ts';
import type { Writer } from './written.ts';

const MINUTE_MS = 60_000;

/** A day with all that its words need. */
export interface DayTold {
  readonly plan: DayPlan;
  readonly pots: readonly (DayPotTold & { readonly makeName: string })[];
  /** Midnight of the day, milliseconds UTC. */
  readonly zeroAt: number;
  readonly makeNames: ReadonlyMap<string, string>;
  readonly say: Say;
  readonly write: Writer;
}

const clockOf = ({ zeroAt, write }: Pick<DayTold, 'zeroAt' | 'write'>, minutes: number): string => write.clock(zeroAt + minutes * MINUTE_MS); // prettier-ignore

/** A line of the run as it is read. */
export interface RunLine {
  readonly key: string;
  /** Null for the evening before. */
  readonly time: string | null;
  readonly pots: string;
  readonly what: string;
  /** On which burner, until when, waiting how long; shown smaller. */
  readonly more: string;
  readonly isWork: boolean;
  /** The day, where it is another than that of the line before and the plan takes more than one. */
  readonly day: string | null;
}

/** What to do when, by the clock. */
export function runLines(told: DayTold): RunLine[] {
  const { plan, pots } = told;
  const lines = dayLines({ plan, pots });
  const dayOf = (line: DayLine | undefined): string | null => line === undefined || line.kind === 'evening' ? null : told.write.day(told.zeroAt + line.atMin * MINUTE_MS); // prettier-ignore
  const days = new Set(lines.flatMap((line) => dayOf(line) ?? []));
  return lines.map((line, index): RunLine => {
    const names = pots.filter(({ id }) => line.potIds.includes(id)).map(({ name }) => name);
    return {
      key: `${line.key} ${line.potIds.join()}`,
      time: line.kind === 'evening' ? null : clockOf(told, line.atMin),
      pots: names.length === pots.length && names.length > 1 ? told.say('day:run.all') : names.join(', '),
      what: whatText(line, told),
      more: moreText(line, told),
      isWork: line.handsMin > 0,
      day: days.size > 1 && dayOf(line) !== dayOf(lines[index - 1]) ? dayOf(line) : null,
    };
  });
}

function whatText(line: DayLine, { say, write }: DayTold): string {
  if (line.kind === 'chill' || line.kind === 'rewarm') return say(`day:run.${line.kind}`);
  const what = line.what.map((one) => sentenceInUnits({ text: one, units: write.units })).join('. ');
  return line.kind === 'done' ? say('day:run.done', { what }) : what;
}

function moreText(line: DayLine, told: DayTold): string {
  const { say, write } = told;
  return [
    ...line.kit.map(({ resource, unit }) => say(`day:unit.${resource}`, { number: unit })),
    ...(line.endsMin === null ? [] : [say('day:run.ends', { early: clockOf(told, line.endsMin.early), late: clockOf(told, line.endsMin.late) })]), // prettier-ignore
    ...(line.waitsMin === 0 ? [] : [say('day:run.waits', { minutes: write.duration(line.waitsMin) })]),
  ].join(' · ');
}

/** What stands in the way, and what would make it fit, in sentences; pots that lack the same are told together. */
export function findingTexts(told: DayTold): string[] {
  return [...new Set(told.plan.findings.map((finding) => findingText(finding, told)))];
}

function findingText({ code, fields }: DayFinding, told: DayTold): string {
  const { pots, say, write, makeNames } = told;
  const pot = pots.find(({ id }) => id === fields['potId']);
  const step = pot?.steps.find(({ id }) => id === fields['stepId']);
  const what = step?.prepare.find(({ id }) => id === fields['preparationId']);
  const late = code === 'night-gone' && what?.ifLate !== undefined ? ` ${sentenceInUnits({ text: what.ifLate, units: write.units })}` : ''; // prettier-ignore
  const minutes = (key: string): string => write.duration(Number(fields[key] ?? 0));
  return `${say(`day:finding.${code}`, {
    pot: code === 'clash-under-way' ? (pot?.name ?? '') : '',
    make: makeNames.get(String(fields['makeId'] ?? '')) ?? pot?.makeName ?? '',
    needs: code === 'kit-missing' ? Number(fields['needs']) : minutes('needsMin'),
    has: code === 'kit-missing' ? Number(fields['has']) : minutes('hasMin'),
    kit: fields['resource'] === undefined || fields['resource'] === '' ? '' : say(`day:kit.${fields['resource']}`).toLowerCase(),
    end: clockOf(told, Number(fields['endMin'] ?? 0)),
    over: minutes('overMin'),
    step: step?.name ?? '',
    what: what === undefined ? '' : sentenceInUnits({ text: what.what, units: write.units }),
    at: clockOf(told, Number(fields['fromMin'] ?? 0)),
  })}${late}`; // prettier-ignore
}

/** A way out as a button says it. */
export function wayText({ code, fields }: DayWay, told: DayTold): string {
  const { say, write, makeNames } = told;
  const isDayBefore = code === 'curd-kept-cold' && Number(fields['madeFromMin']) < 0;
  return say(isDayBefore ? 'day:way.curd-kept-overnight' : `day:way.${code}`, {
    count: Number(fields['count'] ?? fields['more'] ?? 0),
    of: Number(fields['of'] ?? 0),
    by: write.duration(Number(fields['byMin'] ?? 0)),
    from: clockOf(told, Number(fields['fromMin'] ?? fields['workedFromMin'] ?? 0)),
    to: clockOf(told, Number(fields['toMin'] ?? 0)),
    made: clockOf(told, Number(fields['madeFromMin'] ?? 0)),
    end: clockOf(told, Number(fields['endMin'] ?? 0)),
    make: makeNames.get(String(fields['makeId'] ?? '')) ?? '',
  });
}
