import { adoptedHistory, adoptedPlan } from '../make/adopt.ts';
import type { History } from '../make/history.ts';
import type { Make } from '../make/make.ts';
import type { Plan } from '../make/plan.ts';
import type { Answers } from '../make/setup.ts';
import { outsideOf, toldDepartures, toldHistory, type Told } from '../make/told.ts';
import { InputError } from '../numbers/validity.ts';
import { CULTURES } from '../science/culture.ts';
import { choiceForecast, sketched, type ChoiceForecast, type Weighed } from './choice-forecast.ts';
import { candidatesOf, situationOf, type Candidate, type Situation } from './choices.ts';
import { continued, fewOf } from './continued.ts';
import { remediesOf } from './remedies.ts';
import { membersOf, MODEL_VERSION, told as tellMembers, type Members } from './simulate.ts';
import type { Beliefs } from './uncertain.ts';

export interface AdviseInput {
  readonly plan: Plan;
  /** The answers that the plan was fitted to, with what was chosen since. */
  readonly answers: Answers;
  readonly history: History;
  readonly beliefs?: Beliefs;
  /** 200 where left out. */
  readonly members?: number;
  readonly seed?: number;
  /** Makes that this one might become. */
  readonly others?: readonly Make[];
  /** A mishap that is being told: not in the history yet, and forecast as if it were. */
  readonly mishap?: Told;
  /** Minutes from now to tomorrow's start; until the hour at which the make was begun where left out. */
  readonly untilTomorrowMin?: number;
}

/** One thing to do from here, with what it would bring. */
export interface Choice extends Candidate {
  readonly forecast: ChoiceForecast;
  /** True where it differs from going on by no more than the noise. */
  readonly isSame: boolean;
}

export interface Advice {
  readonly seed: number;
  readonly members: number;
  readonly modelVersion: string;
  readonly nowMin: number;
  /** As it stands, with what was told. */
  readonly goOn: ChoiceForecast;
  /** At most four, the best first; stopping is always open besides. */
  readonly choices: readonly Choice[];
  readonly phase: Situation['phase'];
  /** What stands behind the figures on thin evidence, as codes of `advice:unconfirmed.…`: `heat-kills`. */
  readonly unconfirmed: readonly string[];
}

/** What was told lies where the sums do not hold: nothing is forecast. */
export interface Outside {
  readonly outside: NonNullable<ReturnType<typeof outsideOf>>;
}

const MEMBERS = 200; // our own choice: enough for a tenth of a chance and five minutes
const FEW = 60; // of the members, for finding out which choices are worth all of them; our own choice
const MOST = 4;
const DAY_MIN = 1440;
const LEAST_NIGHT_MIN = 360; // our own choice: a make begun at nine is not gone on with at three

/**
 * What can be done from here, and what each choice would bring.
 *
 * Each choice is a change of plan or something done to the vat now, run through the same simulator with the same members:
 * seed, beliefs and evidence are shared, so that a difference between two choices is the choice's own. Choices that bring
 * nothing are left out, the rest stand by their chance of the aim, then by all aims together, then by time.
 *
 * @param input.plan  as it runs now
 * @param input.history  up to now, without the mishap being told
 * @returns at most four choices besides going on and stopping, or where the sums do not hold
 * Valid: as `simulate`, and temperatures as `TOLD_RANGE`. Uncertainty: in each forecast. Deterministic for a seed.
 */
export function advise(input: AdviseInput): Advice | Outside {
  const { mishap } = input;
  const outside = mishap === undefined ? null : outsideOf(mishap);
  if (outside !== null) return { outside };
  const stands = mishap === undefined ? input : afterTold(input, mishap);
  const { plan, answers, history } = stands;
  const base = membersOf({ ...stands, members: input.members ?? MEMBERS });
  const { seed, members, course } = base;
  const forecast = tellMembers(base);
  const untilTomorrowMin = input.untilTomorrowMin ?? nightFrom(course.nowMin);
  const situation = situationOf({ plan, answers, history, forecast, untilTomorrowMin });
  const remedies: readonly Candidate[] = mishap === undefined ? [] : remediesOf(situation, mishap);
  const known = new Set(remedies.map(({ kind }) => kind));
  // What a mishap's own remedy does already is not offered twice.
  const general = candidatesOf(situation, input.others ?? []).filter(({ kind }) => kind === 'set' || !known.has(kind));
  const goOn = choiceForecast(plan, forecast);
  const worth = worthRunning({ base, situation, remedies, general });
  const choices = worth
    .map((one): Choice => {
      const itself = one.weighed === null ? goOn : choiceForecast(one.plan, tellMembers(continued(base, one)));
      return { ...one.candidate, forecast: itself, isSame: one.weighed !== null && isSame(itself, goOn) };
    })
    .filter((choice) => remedies.some(({ id }) => id === choice.id) || brings(choice, choice.forecast, goOn, 1))
    .sort((a, b) => better(a.forecast, b.forecast));
  const { phase } = situation;
  return { seed, members, modelVersion: MODEL_VERSION, nowMin: course.nowMin, goOn, choices, phase, unconfirmed: unconfirmedOf(plan, history) }; // prettier-ignore
}

/** To the hour at which the make was begun, a night away at least. */
function nightFrom(nowMin: number): number {
  const left = DAY_MIN - (nowMin % DAY_MIN);
  return left < LEAST_NIGHT_MIN ? left + DAY_MIN : left;
}

/** How many cells a heat kills is one printed value and our own choices (`heat-death.ts`). */
function unconfirmedOf({ make }: Plan, { disturbances = [] }: History): string[] {
  const { culture } = make.doses;
  if (culture === undefined) return [];
  const { temperatureMaxC } = CULTURES[culture.kind];
  const kills = disturbances.some((one) => one.kind === 'temperature' && one.minutes > 0 && one.temperatureC > temperatureMaxC); // prettier-ignore
  return kills ? ['heat-kills'] : [];
}

interface Standing {
  readonly candidate: Candidate;
  readonly plan: Plan;
  readonly history: History;
  /** Null where it changes nothing but what is known. */
  readonly weighed: Weighed | null;
}

/** The four that are worth all members: what was asked for by name first, then the best by a few members. */
function worthRunning(input: {
  readonly base: Members;
  readonly situation: Situation;
  readonly remedies: readonly Candidate[];
  readonly general: readonly Candidate[];
}): Standing[] {
  const { base, situation, remedies, general } = input;
  const few = Math.min(FEW, base.members);
  const goOn = sketched(situation.plan, fewOf(base, few));
  const weighed = (candidate: Candidate): Standing[] => {
    if (candidate.kind === 'test')
      return [{ candidate, plan: situation.plan, history: situation.history, weighed: null }];
    const adopted = adoptedOf(situation, candidate);
    if (adopted === null) return [];
    return [{ candidate, ...adopted, weighed: sketched(adopted.plan, continued(base, { ...adopted, count: few })) }];
  };
  const asked = remedies.flatMap(weighed).slice(0, MOST);
  const others = asked.length === MOST ? [] : general.flatMap(weighed);
  const best = others
    .filter((one) => brings(one.candidate, one.weighed ?? goOn, goOn, ROUGH))
    .sort((a, b) => better(a.weighed ?? goOn, b.weighed ?? goOn));
  return withWayOut(best, MOST - asked.length, asked);
}

/** The best of the rest; a way out keeps its place beside settings that might, by a few members, be worth a little more. */
function withWayOut(best: readonly Standing[], places: number, asked: readonly Standing[]): Standing[] {
  const first = best.slice(0, places);
  const wayOut = best.find(isWayOut);
  if (places === 0 || wayOut === undefined || first.some(isWayOut)) return [...asked, ...first];
  return [...asked, ...first.slice(0, -1), wayOut];
}

/** Another cheese, or another day. */
const isWayOut = ({ candidate: { kind } }: Pick<Standing, 'candidate'>): boolean =>
  kind === 'otherMake' || kind === 'chill';

/** Plan, answers and history with a mishap in them. */
export function afterTold<I extends Pick<AdviseInput, 'plan' | 'answers' | 'history'>>(input: I, mishap: Told): I {
  const { plan, answers, history } = input;
  const choice = { departures: toldDepartures(mishap) };
  const adopted = adoptedPlan({ plan, answers, steps: history.steps, atMin: mishap.elapsedMin, choice });
  return { ...input, ...adopted, history: toldHistory({ history, told: mishap }) };
}

/** The plan and the history after a choice; null where this milk or this make does not allow it. */
export function adoptedOf(
  stands: { readonly plan: Plan; readonly answers: Answers; readonly history: History; readonly nowMin: number },
  { choice }: Pick<Candidate, 'choice'>,
): { readonly plan: Plan; readonly history: History } | null {
  const { plan, answers, history, nowMin } = stands;
  try {
    const adopted = adoptedPlan({ plan, answers, steps: history.steps, atMin: nowMin, choice });
    return { plan: adopted.plan, history: adoptedHistory(history, choice) };
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/**
 * Below this a difference is no difference. Between two choices with the same 200 members it differs from seed to seed by a
 * standard deviation of up to 0.017 of a chance and 1.5 minutes (measured on this make, our own); thrice that.
 */
const NOISE = { chance: 0.05, minutes: 5 } as const;
const ROUGH = 0.5; // of the noise, while only a few members have run: nothing is lost that all of them might show; our own choice

function isSame(a: Weighed, b: Weighed): boolean {
  const isNear = (x: number, y: number, by: number): boolean => x === y || Math.abs(x - y) < by;
  return (
    isNear(a.chance, b.chance, NOISE.chance) &&
    isNear(a.endMin.p50, b.endMin.p50, NOISE.minutes) &&
    a.aims.every((aim, index) => isNear(aim.probability, b.aims[index]?.probability ?? aim.probability, NOISE.chance))
  );
}

/** Whether a choice brings something that going on does not: a better chance, or as good a one with more aims or sooner. */
function brings({ kind }: Candidate, choice: Weighed, goOn: Weighed, share: number): boolean {
  const least = share * NOISE.chance;
  // A test piece brings knowledge; another cheese, or another day, is a way out as long as it leads somewhere.
  if (kind === 'test') return true;
  if (kind === 'otherMake' || kind === 'chill') return choice.chance > NOISE.chance;
  const better = choice.chance - goOn.chance;
  if (better >= least) return true;
  if (better <= -NOISE.chance) return false;
  return togetherOf(choice) - togetherOf(goOn) >= least || goOn.endMin.p50 - choice.endMin.p50 >= share * NOISE.minutes;
}

/** How many of the aims are met, on the average. */
const togetherOf = ({ aims }: Weighed): number => aims.reduce((sum, { probability }) => sum + probability, 0);

/** By chance of the aim, then by all aims together, then by time; what lies within the noise counts as equal. */
function better(a: Weighed, b: Weighed): number {
  const steps = (value: number): number => Math.round(value / NOISE.chance);
  return (
    steps(b.chance) - steps(a.chance) || steps(togetherOf(b)) - steps(togetherOf(a)) || a.endMin.p50 - b.endMin.p50
  );
}
