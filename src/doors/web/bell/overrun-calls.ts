import { cutByFlecksMin } from '../vat/actions.ts';
import { foreseen } from '../vat/current-step.ts';
import { judgementAwaited } from '../vat/readiness.ts';
import { instantOf } from '../vat/said.ts';
import { answer, MINUTE_MS } from './call-parts.ts';
import type { Call } from './call.ts';
import type { Running } from './step-calls.ts';

/** A cut is long overdue this many minutes after the fleck time said it, at least. Our own choice. */
const CUT_OVER_MIN = 10;
const CUT_OVER_SHARE = 0.25;
/** Whoever has just looked needs no alarm. Our own choice. */
const LOOKED_MIN = 15;
/** Curd has been in hot water far too long at this many times its minutes. Our own choice. */
const HOT_OVER_TIMES = 2;
/** An overrun is to be ended within these minutes. Our own choice. */
const WITHIN_MIN = 5;

/** A running step that is long over and spoils something: the cut, the stretch, hot water, the brine. At most one. */
export function overrunCalls(running: Running): readonly Call[] {
  const found = overdueAt(running);
  if (found === null) return [];
  const { step, startedAt, telling } = running;
  const { say, write } = telling;
  const { words, dueAt, isExact, count } = found;
  const awaited = judgementAwaited(step);
  const values = { step: step.name, done: step.done, duration: write.duration((dueAt - startedAt) / MINUTE_MS) };
  return [
    {
      id: `${step.id}.over.${count}`,
      class: 'act',
      cause: `${step.id}.over`,
      dueAt,
      isExact,
      seen: say(`bell:over.${words}.seen`, values),
      what: say(`bell:over.${words}.what`, values),
      by: say('bell:by', { at: write.clock(dueAt + WITHIN_MIN * MINUTE_MS) }),
      cost: say(`bell:over.${words}.cost`, values),
      spoken: say(`bell:over.${words}.spoken`, values),
      ...(awaited === null ? {} : { look: awaited.judgement }),
      answers: [answer(telling, 'done', { words: 'doing' })],
    },
  ];
}

interface Overdue {
  readonly words: 'cut' | 'stretched' | 'hotWater' | 'brine' | 'judged';
  readonly dueAt: number;
  readonly isExact: boolean;
  /** Looks so far; each one puts the alarm off and makes it another. */
  readonly count: number;
}

function overdueAt(running: Running): Overdue | null {
  const { step, record, startedAt } = running;
  const awaited = judgementAwaited(step);
  if (awaited !== null) {
    const looked = record.judgements.filter((one) => one.judgement === awaited.judgement && one.at >= startedAt);
    const limit = limitOf(running);
    if (limit === null) return null;
    const lookedAt = looked.at(-1)?.at ?? Number.NEGATIVE_INFINITY;
    const dueAt = Math.round(Math.max(limit.at, lookedAt + LOOKED_MIN * MINUTE_MS));
    const words = awaited.judgement === 'cleanBreak' ? 'cut' : awaited.judgement === 'stretch' ? 'stretched' : 'judged';
    return { words, dueAt, isExact: limit.isExact, count: looked.length };
  }
  const minutes = step.until.of.find((one) => one.kind === 'time')?.minutes.value;
  const isHot = step.verb === 'stretch' || step.verb === 'wash';
  if (isHot && minutes !== undefined) {
    return { words: 'hotWater', dueAt: startedAt + minutes * HOT_OVER_TIMES * MINUTE_MS, isExact: true, count: 0 }; // prettier-ignore
  }
  const brined = step.verb === 'brine' ? lengthP95(running) : null;
  if (brined === null) return null;
  const dueAt = Math.round(startedAt + brined * MINUTE_MS);
  return { words: 'brine', dueAt, isExact: true, count: 0 };
}

/** By the flecks where they were seen; else when 19 makes in 20 would be there, as foreseen at the opening. */
function limitOf(running: Running): { readonly at: number; readonly isExact: boolean } | null {
  const { step, record, startedAt, telling } = running;
  const cutMin = cutByFlecksMin({ step, record, telling });
  if (cutMin !== null) {
    const cutAt = instantOf({ zeroAt: telling.zeroAt, elapsedMin: cutMin });
    const over = Math.max(CUT_OVER_MIN * MINUTE_MS, CUT_OVER_SHARE * (cutAt - startedAt));
    return { at: cutAt + over, isExact: true };
  }
  const length = lengthP95(running);
  return length === null ? null : { at: startedAt + length * MINUTE_MS, isExact: true };
}

/** How long the step lasts in 19 makes of 20, minutes, as foreseen when the plan was taken. */
function lengthP95({ step, planned }: Running): number | null {
  const first = foreseen({ forecast: planned, stepId: step.id });
  if (first === undefined) return null;
  const minutes = first.endMin.p95 - first.startMin.p50;
  return Number.isFinite(minutes) && minutes > 0 ? minutes : null;
}
