import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { cutByFlecksMin, mainAction, type MainAction } from './actions.ts';
import { comingAfter, type Coming } from './coming.ts';
import { courseOf, type Course } from './course.ts';
import { foreseen, standingOf, type Standing } from './current-step.ts';
import { factsOf } from './facts.ts';
import { cautionsFor, openItems, pausesOf, type Pause, type ReadyItem } from './get-ready.ts';
import { keyNumbers, type KeyNumber } from './key-numbers.ts';
import { readinessOf, type Readiness } from './readiness.ts';
import { asSaid, clockOf, expectText, type Telling } from './said.ts';
import { readyList, type ReadyList } from './short-list.ts';
import { tooSoon } from './too-soon.ts';
import { untilText } from './until.ts';

/** Everything the vat card says, decided; the screen only sets it. */
export interface VatView {
  readonly standing: Standing;
  readonly strip: { readonly pot: string; readonly place: string; readonly clock: string };
  readonly verb: string;
  readonly manner: string;
  readonly numbers: readonly KeyNumber[];
  readonly until: string | null;
  readonly expect: string | null;
  readonly course: Course;
  readonly facts: readonly string[];
  readonly readiness: Readiness | null;
  readonly coming: Coming;
  readonly last: string | null;
  readonly deferred: readonly ReadyItem[];
  readonly cautions: readonly string[];
  readonly pauses: readonly Pause[];
  readonly ready: ReadyList;
  /** The pause that stands before the step to come; null while a step runs. */
  readonly pause: Pause | null;
  readonly main: MainAction | null;
  readonly why: string | null;
  /** What is asked when the step is ended now, long before it is foreseen. */
  readonly tooSoon: string | null;
}

export interface VatInput {
  readonly record: BatchRecord;
  readonly plan: Plan;
  /** Null until the first forecast is there. */
  readonly forecast: Forecast | null;
  /** As foreseen at the opening, and just before the last reading. */
  readonly planned: Forecast | null;
  readonly before: Forecast | null;
  readonly nowAt: number;
  /** The last make of this cheese before; null or left out where it is the first. */
  readonly madeBefore?: BatchRecord | null;
  readonly telling: Telling;
}

/** The vat card for one moment of one batch. Pure: the same record and minute give the same card. */
export function vatView(input: VatInput): VatView {
  const { record, plan, forecast, nowAt, telling } = input;
  const standing = standingOf({ record, plan });
  const { step } = standing;
  const nowMin = (nowAt - telling.zeroAt) / 60_000;
  const ready = readyList({
    pauses: pausesOf({ plan, forecast, nowAt, telling }),
    record,
    before: input.madeBefore ?? null,
  });
  const { pauses } = ready;
  const ahead = step === null ? undefined : foreseen({ forecast, stepId: step.id });
  const running = standing.stage === 'running' ? step : null;
  const readiness =
    running === null ? null : readinessOf({ step: running, plan, record, forecast, foreseen: ahead, nowMin, telling });
  const nextLookMin =
    running === null
      ? null
      : nextLook({ step: running, readiness, endMin: ahead?.endMin.p50, nowMin, record, telling });
  const coming =
    running === null
      ? { text: null, prepare: [] }
      : comingAfter({ plan, record, forecast, index: standing.index, nowMin, telling });
  const called = new Set(coming.prepare.map((one) => one.item));
  return {
    standing,
    strip: {
      pot: record.name,
      place: telling.say('vat:strip.place', {
        step: Math.min(standing.index + 1, plan.steps.length),
        of: plan.steps.length,
      }),
      clock: telling.write.clock(nowAt),
    },
    verb: step?.name ?? telling.say('vat:finish.verb'),
    manner: step === null ? telling.say('vat:finish.manner') : asSaid(step.how, telling),
    numbers: step === null ? [] : keyNumbers({ step, plan, forecast, telling, nowMin, nextLookMin }),
    until: running === null ? null : untilText({ step: running, plan, telling }),
    expect: running === null || ahead === undefined ? null : expectText(telling, ahead.endMin),
    course: courseOf(input),
    facts: running === null ? [] : factsOf({ step: running, plan, record, forecast, telling }),
    readiness,
    coming,
    last: lastDone(input),
    deferred: deferredItems({ pauses, standing, plan, record }).filter((item) => !called.has(item.id)),
    cautions: step === null || forecast === null ? [] : cautionsFor({ findings: forecast.findings, step, telling }),
    pauses,
    ready,
    pause: running === null && step !== null ? (pauses.find((pause) => pause.stepId === step.id && openItems(pause, record).length > 0) ?? pauses.findLast((pause) => pause.stepId === step.id) ?? null) : null, // prettier-ignore
    main: mainAction({ standing, plan, record, pauses, nowAt, telling }),
    why: running === null ? null : asSaid(running.why, telling),
    tooSoon: tooSoon({ standing, forecast, nowMin, telling }),
  };
}

/** When to look or act next: the foreseen look, the cut by the fleck time, or the likely end. */
function nextLook(input: {
  readonly step: PlannedStep;
  readonly readiness: Readiness | null;
  readonly endMin: number | undefined;
  readonly nowMin: number;
  readonly record: BatchRecord;
  readonly telling: Telling;
}): number | null {
  const byFlecks = cutByFlecksMin(input);
  // A cut that was due by the flecks and found not yet ready is looked at again when the look says.
  if (byFlecks !== null && byFlecks > input.nowMin) return byFlecks;
  const set = input.record.timers.findLast((timer) => timer.timerId === `look.${input.step.id}`);
  const setMin = set === undefined ? null : (set.startedAt + set.lastsMs - input.telling.zeroAt) / 60_000;
  if (setMin !== null && setMin > input.nowMin) return setMin;
  if (input.readiness !== null && input.readiness.nextLookMin !== null) return input.readiness.nextLookMin;
  return input.endMin !== undefined && Number.isFinite(input.endMin) ? input.endMin : null;
}

/** "Rennet in, 10:14": where the work was when somebody looked away. */
export function lastDone({ record, plan, telling }: Pick<VatInput, 'record' | 'plan' | 'telling'>): string | null {
  const last = [...record.steps]
    .filter((step) => step.endedAt !== null)
    .sort((a, b) => (b.endedAt ?? 0) - (a.endedAt ?? 0))[0];
  if (last === undefined || last.endedAt === null) return null;
  const name = plan.steps.find((step) => step.id === last.stepId)?.done ?? last.said ?? '';
  return telling.say('vat:last', { what: name, at: clockOf(telling, (last.endedAt - telling.zeroAt) / 60_000) });
}

/** Open items of pauses that are behind us; nothing that was put off is forgotten. */
function deferredItems(input: {
  readonly pauses: readonly Pause[];
  readonly standing: Standing;
  readonly plan: Plan;
  readonly record: BatchRecord;
}): readonly ReadyItem[] {
  if (input.standing.stage === 'get-ready') return [];
  const order = new Map(input.plan.steps.map((step, index) => [step.id, index]));
  const begun = (pause: Pause): boolean =>
    input.standing.stage === 'running'
      ? (order.get(pause.stepId) ?? 0) <= input.standing.index
      : (order.get(pause.stepId) ?? 0) < input.standing.index;
  return input.pauses.filter(begun).flatMap((pause) => openItems(pause, input.record));
}
