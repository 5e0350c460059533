/** The day on the clock: what to have ready and when, every step with its band, and what to do at it. */
import type { StepForecast } from '../../forecast/forecast.ts';
import type { PlannedStep } from '../../make/plan.ts';
import { expectedMin } from '../../make/planning.ts';
import { sentenceInUnits } from '../../make/sentence.ts';
import { keptBy, preparationsOf } from '../schedule.ts';
import { columns, paragraph, rowBlocks, wrapped } from './layout.ts';
import { preparedText } from './amounts-text.ts';
import { clockAt, clockBand, hoursText, isKnown, type Sheet } from './telling.ts';

/** Parallel preparations, each with the time to begin it and how much of it. */
export function readyLines(sheet: Sheet): string[] {
  const { say, both, width, plan, forecast } = sheet;
  const nowMin = (sheet.now - sheet.schedule.zeroAt) / 60_000;
  const rows = preparationsOf({ plan, forecast, nowMin }).map((timed) => {
    const { startMin, isEveningBefore, isTooLate, preparation } = timed;
    const what = sentenceInUnits({ text: preparation.what, units: both.units });
    const amount = preparedText(timed, sheet);
    const whole = amount === '' ? what : `${what}: ${amount}`;
    const late = sentenceInUnits({ text: preparation.ifLate ?? say('plan-text:ready.late'), units: both.units });
    if (isTooLate) return [say('plan-text:ready.now'), `${whole}. ${late}`];
    return [isEveningBefore ? say('plan-text:ready.evening') : clockAt(sheet, startMin), whole];
  });
  return [...columns({ rows, width }), ...paragraph({ text: say('plan-text:ready.enough'), width })];
}

/** One line a step: likely start, where the start falls nine times in ten, name, and what ends it; beneath it the figures. */
export function clockLines(sheet: Sheet): string[] {
  const { plan, forecast, say, width, schedule } = sheet;
  const byId = new Map(forecast.steps.map((step) => [step.stepId, step]));
  const steps = plan.steps.flatMap((step) => {
    const foreseen = byId.get(step.id);
    return foreseen === undefined ? [] : [{ step, foreseen }];
  });
  const head = ['likely', 'band', 'step', 'until'].map((id) => say(`plan-text:clock.${id}`));
  const rows = steps.map(({ step, foreseen }) => [
    clockAt(sheet, foreseen.startMin.p50),
    foreseen.startMin.p5 === foreseen.startMin.p95 ? '' : clockBand(sheet, foreseen.startMin),
    step.name,
    untilText({ step, sheet }),
  ]);
  const last = byId.get(schedule.lastStepId);
  const end = last === undefined ? [] : [[clockAt(sheet, last.endMin.p50), clockBand(sheet, last.endMin), say('plan-text:clock.done'), '']]; // prettier-ignore
  const lines = rowBlocks({ rows: [head, ...rows, ...end], width });
  return lines.flatMap((block, index) => {
    const at = steps[index - 1];
    const details = at === undefined ? [] : detailsOf({ ...at, sheet });
    const inset = ' '.repeat(DETAIL_INDENT);
    const wide = details.flatMap((text) => wrapped({ text, width: width - DETAIL_INDENT, hang: 2 }));
    return [...block, ...wide.map((line) => `${inset}${line}`)];
  });
}

/** Under the name of the step: two clocks and their gaps. */
const DETAIL_INDENT = 24;

/** What ends a step, in words. */
export function untilText({
  step,
  sheet,
}: {
  readonly step: PlannedStep;
  readonly sheet: Pick<Sheet, 'say' | 'both' | 'write' | 'plan'>;
}): string {
  const { say, both, write } = sheet;
  const judged = step.until.of.some((condition) => condition.kind === 'judgement');
  const parts = step.until.of.map((condition) => {
    switch (condition.kind) {
      case 'time':
        return say(judged ? 'plan-text:until.about' : 'plan-text:until.time', { minutes: hoursText(condition.minutes.value) }); // prettier-ignore
      case 'temperature':
        return say('plan-text:until.temperature', { at: both.temperature(condition.atC.value).text });
      case 'coreTemperature':
        return say('plan-text:until.core', { at: both.temperature(condition.atC.value).text });
      case 'pH':
        return say('plan-text:until.pH', {
          sample: say(`plan-text:sample.${condition.sample}`),
          at: write.number(condition.at.value, 2),
        });
      case 'judgement':
        return say('plan-text:until.judgement', { done: step.done });
      case 'flocculation':
        return say('plan-text:until.flocculation', { multiplier: condition.multiplier.value });
      case 'days':
        return say('plan-text:until.days', { count: condition.days.value });
      case 'moisture':
        return say('plan-text:until.moisture', { percent: condition.percent.value });
      case 'mass':
        return say('plan-text:until.mass', {
          mass: both.mass(condition.kgPerL.value * sheet.plan.setup.milk.volumeL).first,
        });
      case 'salt':
        return say('plan-text:until.salt', { percent: condition.percent.value });
    }
  });
  return parts.join(say(step.until.join === 'first' ? 'plan-text:until.or' : 'plan-text:until.and'));
}

interface AtStep {
  readonly step: PlannedStep;
  readonly foreseen: StepForecast;
  readonly sheet: Sheet;
}

/** The figures of one step: burner off, whey by depth, hot water, looks, and where it will have cooled to. */
function detailsOf(at: AtStep): string[] {
  return [burnerText(at), ...workText(at), looksText(at), driftText(at)].filter((text) => text !== '');
}

function burnerText({ step, sheet }: AtStep): string {
  const off = sheet.forecast.needs.heatOffC.find((each) => each.stepId === step.id);
  if (off === undefined || !isKnown(off.offC)) return '';
  return sheet.say('plan-text:step.burner', {
    off: sheet.both.temperature(off.offC.p50, 1).text,
    target: sheet.both.temperature(off.targetC).text,
    minutes: hoursText(off.minutes.p50),
  });
}

function workText({ step, sheet }: AtStep): string[] {
  const { forecast, say, both } = sheet;
  const { needs } = forecast;
  switch (step.verb) {
    case 'drawWhey':
      return isKnown(needs.wheyDrawnL) && isKnown(needs.wheyDrawnCm)
        ? [say('plan-text:step.whey', { litres: both.volume(needs.wheyDrawnL.p50).text, depth: both.depth(needs.wheyDrawnCm.p50).text })] // prettier-ignore
        : [];
    case 'wash':
      return isKnown(needs.washWaterL) && typeof step.set.waterC === 'number' && typeof step.set.stopAtC === 'number'
        ? [say('plan-text:step.wash', { litres: both.volume(needs.washWaterL.p50).text, water: both.temperature(step.set.waterC).text, stop: both.temperature(step.set.stopAtC).text })] // prettier-ignore
        : [];
    case 'stretch':
      return isKnown(needs.stretchWaterKg) && needs.stretchWaterC !== null
        ? [say('plan-text:step.stretch', { litres: both.volume(needs.stretchWaterKg.p50).text, water: both.temperature(needs.stretchWaterC).text, count: typeof step.set.pours === 'number' ? step.set.pours : 1 })] // prettier-ignore
        : [];
    case 'cool':
      return isKnown(needs.coolMin) && isKnown(needs.iceKg)
        ? [say('plan-text:step.cool', { minutes: hoursText(needs.coolMin.p50), ice: both.mass(needs.iceKg.p50).text })]
        : [];
    case 'brine':
      return isKnown(needs.brineMin) ? [say('plan-text:step.brine', { minutes: hoursText(needs.brineMin.p50) })] : [];
    default:
      return [];
  }
}

const SAID_BY = 14; // of twenty: when most makes are there, our own choice

function looksText({ step, foreseen, sheet }: AtStep): string {
  const [first, next] = foreseen.looksMin;
  if (first === undefined || next === undefined || foreseen.endDots.length === 0) return '';
  const key = `plan-text:step.${lookOf(step)}`;
  return sheet.say(key, {
    first: clockAt(sheet, first),
    next: clockAt(sheet, next),
    count: SAID_BY,
    by: clockAt(sheet, keptBy(foreseen.endDots, SAID_BY)),
  });
}

/** What one looks at: the set, a test piece in hot water, or another sign. */
function lookOf(step: PlannedStep): 'look' | 'lookSet' | 'testPiece' {
  if (step.verb === 'set') return 'lookSet';
  const stretches = step.until.of.some((each) => each.kind === 'judgement' && each.judgement === 'stretch');
  return stretches ? 'testPiece' : 'look';
}

const DRIFT_K = 1; // worth a word from one degree on: our own choice

/** A pot that cools while nobody heats it. */
function driftText({ step, foreseen, sheet }: AtStep): string {
  const meantC = step.set.atC;
  const end = foreseen.endTemperatureC;
  const isLong = (expectedMin(step) ?? 0) >= 15 || step.verb === 'set';
  if (typeof meantC !== 'number' || !isKnown(end) || !isLong || foreseen.phase === 'after') return '';
  if (meantC - end.p50 < DRIFT_K) return '';
  return sheet.say(step.verb === 'set' ? 'plan-text:step.driftSet' : 'plan-text:step.drift', {
    end: sheet.both.temperature(end.p50, 1).text,
    meant: sheet.both.temperature(meantC).text,
  });
}
