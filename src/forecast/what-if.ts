import { adoptedPlan, type Adopted } from '../make/adopt.ts';
import { adjustablesOf, type Adjustable } from '../make/adjustable.ts';
import type { History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import type { Answers } from '../make/setup.ts';
import { stillOpen } from '../make/under-way.ts';
import { continued } from './continued.ts';
import { firstLook, type Base } from './first-look.ts';
import type { Forecast } from './forecast.ts';
import { membersOf, told, type SimulateInput } from './simulate.ts';

/** The room stands beside the plan: it is moved by a thermometer's word, not by a change of the make. */
export const ROOM = 'room';

/** One figure that can still be set otherwise, and where it stands. */
export interface OpenFigure extends Adjustable {
  readonly now: number;
  /** The forecast's middle, where the plan leaves the figure to the milk or the curd. */
  readonly isExpected: boolean;
}

/** Values by the id of an open figure, in its own unit; what is left out stays as it is. */
export type Settings = Readonly<Record<string, number>>;

const ROOM_RANGE_C = { low: 5, high: 35 } as const; // where people make cheese: our own choice

/**
 * What can still be set otherwise from now on, the nearest in the work first, the kitchen's own last.
 * @param input.forecast  as the make stands; says how long a step lasts that no figure of the plan ends
 */
export function openFiguresOf(input: {
  readonly plan: Plan;
  readonly history: History;
  readonly forecast: Forecast;
}): readonly OpenFigure[] {
  const { plan, history, forecast } = input;
  const open = stillOpen({ plan, adjustables: adjustablesOf(plan), history });
  return [...open.flatMap((one): OpenFigure[] => standing(one, forecast)), roomOf(plan, history)];
}

function standing(one: Adjustable, forecast: Forecast): OpenFigure[] {
  const inRange = (value: number): number => Math.min(Math.max(value, one.low), one.high);
  if (one.now !== null) return [{ ...one, now: inRange(one.now), isExpected: false }];
  const step = forecast.steps.find(({ stepId }) => stepId === one.stepId);
  const lastsMin = step === undefined ? Number.NaN : step.endMin.p50 - step.startMin.p50;
  if (one.unit !== 'min' || !Number.isFinite(lastsMin)) return [];
  return [{ ...one, now: inRange(Math.round(lastsMin / one.step) * one.step), isExpected: true }];
}

function roomOf(plan: Plan, { readings }: History): OpenFigure {
  const read = readings.filter(({ quantity, sample }) => quantity === 'temperatureC' && sample === 'room').at(-1);
  const now = Math.round(read?.value ?? plan.setup.roomC);
  const base = { id: ROOM, name: null, unit: '°C', step: 1, stepId: '', isEnd: false, path: null } as const;
  return {
    ...base,
    low: Math.min(ROOM_RANGE_C.low, now),
    high: Math.max(ROOM_RANGE_C.high, now),
    now,
    isExpected: false,
  };
}

/** The settings as a choice that the record can hold; the room is noted beside it. */
export function choiceOf(settings: Settings): Adopted {
  const changes = Object.fromEntries(Object.entries(settings).filter(([id]) => id !== ROOM));
  return Object.keys(changes).length === 0 ? {} : { changes };
}

/** A make as it stands, to be asked what would come of it otherwise. */
export interface Standing {
  readonly plan: Plan;
  /** The answers that the plan is fitted to, with what was chosen since. */
  readonly answers: Answers;
  readonly history: History;
}

/** Old and new together: the same members, so that what differs is what was changed. */
export interface WhatIf {
  readonly was: Forecast;
  readonly next: Forecast;
  /** The plan that would run. */
  readonly plan: Plan;
}

/** The members of a make as it stands, with what they say together. */
export function baseOf(input: SimulateInput): Base {
  const members = membersOf(input);
  return { members, forecast: told(members) };
}

/**
 * What would come of a make if some of its figures were set otherwise from now on.
 *
 * The members that explain the make so far go on under both plans (common random numbers), so nothing moves that the change
 * does not move: with no change both forecasts are the same to the last figure.
 *
 * @param base  the make as it stands, from `baseOf` with this plan and history
 * @param input.settings  from `openFiguresOf`, each within its range
 * @param input.count  how many of the members follow the change, for a first look (`first-look.ts`); all where left out
 * @throws InputError where a value lies outside the make's ranges, or this milk does not allow it
 * Uncertainty: in both forecasts; a difference between them has the change's own only.
 */
export function whatIf(base: Base, input: Standing & { readonly settings: Settings; readonly count?: number }): WhatIf {
  const { settings, count = base.members.members } = input;
  const was = base.forecast;
  const { plan, history } = settled(input, settings);
  if (Object.keys(settings).length === 0) return { was, next: was, plan };
  const isAll = count >= base.members.members;
  const next = isAll ? told(continued(base.members, { plan, history })) : firstLook(base, { plan, history, count });
  return { was, next, plan };
}

/** Plan and history as if the settings had been chosen at the history's now. */
function settled({ plan, answers, history }: Standing, settings: Settings): { plan: Plan; history: History } {
  const adopted = adoptedPlan({
    plan,
    answers,
    steps: history.steps,
    atMin: history.nowMin,
    choice: choiceOf(settings),
  });
  const roomC = settings[ROOM];
  if (roomC === undefined) return { plan: adopted.plan, history };
  const read = { quantity: 'temperatureC', sample: 'room', value: roomC, elapsedMin: history.nowMin } as const;
  return { plan: adopted.plan, history: { ...history, readings: [...history.readings, read] } };
}
