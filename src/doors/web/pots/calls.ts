import type { Plan } from '../../../make/plan.ts';
import { stretchesOf } from '../timeline/stretches.ts';
import type { PotOnClock } from './busy.ts';

/** A pot wants hands: which, for what, from when to when by the likeliest times; milliseconds UTC. */
export interface Call {
  readonly potId: string;
  /** The step that the hands are for. */
  readonly stepId: string;
  /** Its name, a verb first; for the very last, what is said as it ends. */
  readonly name: string;
  readonly at: number;
  readonly fromAt: number;
  readonly toAt: number;
  readonly isNow: boolean;
}

/**
 * The calls of one pot: each step that begins with hands, or whose forerunner ends with them, is one; so is the end of the
 * last. The hands' work of a step that is under way is called while it lasts.
 */
export function callsOf(input: { readonly pot: PotOnClock; readonly plan: Plan; readonly nowAt: number }): Call[] {
  const { pot, plan, nowAt } = input;
  const calls: Call[] = [];
  for (const [index, step] of pot.steps.entries()) {
    if (step.state === 'done') continue;
    const hands = stretchesOf(step).filter(({ kind }) => kind === 'hands');
    const front = hands.find(({ fromAt }) => fromAt === step.startAt);
    const before = pot.steps[index - 1];
    const back = before === undefined || before.state === 'done' ? undefined : stretchesOf(before).findLast(({ kind, toAt }) => kind === 'hands' && toAt === before.endAt); // prettier-ignore
    const isHeld = front !== undefined || back !== undefined;
    const at = step.startAt;
    const call = { potId: pot.potId, stepId: step.id, name: step.name };
    if (step.state === 'running') {
      if (front !== undefined && front.toAt > nowAt)
        calls.push({ ...call, at, fromAt: at, toAt: front.toAt, isNow: true });
    } else if (isHeld) {
      const fromAt = Math.min(at, back?.fromAt ?? at);
      calls.push({ ...call, at, fromAt, toAt: front?.toAt ?? at, isNow: fromAt <= nowAt });
    }
    if (index === pot.steps.length - 1) {
      const end = hands.findLast(({ toAt }) => toAt === step.endAt);
      const name = plan.steps.find(({ id }) => id === step.id)?.done ?? step.name;
      if (end !== undefined && end.fromAt !== step.startAt) calls.push({ ...call, name, at: end.fromAt, fromAt: end.fromAt, toAt: end.toAt, isNow: end.fromAt <= nowAt }); // prettier-ignore
    }
  }
  return calls;
}

/** All pots' calls as one queue: earliest first, those at one time in the order of the pots. */
export function queueOf(calls: readonly (readonly Call[])[]): Call[] {
  return calls.flat().sort((a, b) => a.at - b.at);
}

/** Calls of other pots that want hands in the same minutes. */
export function clashing(call: Call, queue: readonly Call[]): Call[] {
  return queue.filter((other) => other.potId !== call.potId && other.fromAt < call.toAt && other.toAt > call.fromAt);
}
