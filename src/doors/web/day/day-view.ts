import { dayLines, type DayLine, type DayPotTold } from '../../../exchange/day-told.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { DayFinding, DayPlan, DayWay } from '../../../forecast/day/day.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import type { LaneDrawn } from '../timeline/lanes.tsx';
import { spanOf, type TimelineStep } from '../timeline/timeline-layout.ts';

/** The planned day as the screen and the sheet say it. */

const MINUTE_MS = 60_000;

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

/** One lane a pot, then one for each burner and kettle that is used; all on one scale. */
export function dayLanes(told: DayTold): { readonly lanes: LaneDrawn[]; readonly frame: { readonly fromAt: number; readonly toAt: number } } {
  const { plan, pots, say } = told;
  const at = (minutes: number): number => told.zeroAt + minutes * MINUTE_MS;
  const potLanes = pots.flatMap((pot): LaneDrawn[] => {
    const placed = plan.pots.find(({ potId }) => potId === pot.id);
    if (placed === undefined) return [];
    const last = placed.steps.findIndex(({ stepId }) => stepId === placed.lastStepId);
    const steps = placed.steps.slice(0, last + 1).flatMap((step, index): TimelineStep[] => {
      const own = pot.steps[index];
      if (own === undefined) return [];
      return [{ id: step.stepId, name: own.name, number: index + 1, state: 'coming', startAt: at(step.startMin), endAt: at(step.endMin), endEarlyAt: at(step.endEarlyMin), endLateAt: at(step.endLateMin), handsMin: own.handsMin }];
    });
    return [{ id: pot.id, name: pot.name, steps, marks: [] }];
  });
  const kitLanes = (['burner', 'kettle', 'press'] as const).flatMap((resource) => {
    const held = plan.holds.filter((hold) => hold.resource === resource);
    const units = [...new Set(held.map(({ unit }) => unit))].sort((a, b) => a - b);
    return units.map((unit): LaneDrawn => ({
      id: `${resource} ${unit}`,
      name: say(`day:unit.${resource}`, { number: unit + 1 }),
      steps: held
        .filter((hold) => hold.unit === unit)
        .sort((a, b) => a.fromMin - b.fromMin)
        .map((hold, index): TimelineStep => ({
          id: `${resource} ${index}`, name: pots.find(({ id }) => id === hold.potId)?.name ?? '', number: pots.findIndex(({ id }) => id === hold.potId) + 1, state: 'coming',
          startAt: at(hold.fromMin), endAt: at(hold.toMin), endEarlyAt: at(hold.toMin), endLateAt: at(hold.toMin),
          handsMin: { start: hold.toMin - hold.fromMin, during: 0, end: 0 },
        })),
      marks: [],
    }));
  });
  const lanes = [...potLanes, ...kitLanes];
  return { lanes, frame: spanOf(lanes.flatMap(({ steps }) => steps)) };
} // prettier-ignore

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
}

/** What to do when, by the clock. */
export function runLines(told: DayTold): RunLine[] {
  const { plan, pots } = told;
  return dayLines({ plan, pots }).map((line): RunLine => {
    const names = pots.filter(({ id }) => line.potIds.includes(id)).map(({ name }) => name);
    return {
      key: `${line.key} ${line.potIds.join()}`,
      time: line.kind === 'evening' ? null : clockOf(told, line.atMin),
      pots: names.length === pots.length && names.length > 1 ? told.say('day:run.all') : names.join(', '),
      what: whatText(line, told),
      more: moreText(line, told),
      isWork: line.handsMin > 0,
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
  return say(`day:way.${code}`, {
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
