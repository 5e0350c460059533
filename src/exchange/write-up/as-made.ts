/**
 * A make "as I made it": the make that the records followed, with what was seen in place of what was meant. Each figure
 * that was seen names where it comes from, so that nobody takes a kitchen's own figure for the trade's.
 */
import type { Figure } from '../../make/figure.ts';
import { placedIn } from '../../make/free-input-problems.ts';
import { parseMake, type Make } from '../../make/make.ts';
import type { Step } from '../../make/step.ts';
import type { Seen, SeenFigures, SeenStep } from './seen.ts';

/** What the writer gives: a name, and what a reader must know. */
export interface Written {
  readonly id: string;
  readonly name: string;
  readonly about: string;
  /** "As made 2 times, 10 to 12 L, …": the source that every seen figure names. */
  readonly source: string;
  /** Steps whose minutes a burner and a pot decide; their time is taken out where something else ends them. */
  readonly neutral: boolean;
}

/** Below so many minutes a time is told to the minute, from there on to five: how a kitchen clock is read. Our own choice. */
const MINUTES_FROM = 20;
const TEMPERATURE_STEP_C = 0.5; // a kitchen thermometer shows halves at the best: common practice (no source)
const PH_STEP = 0.05; // a hand meter tells no finer: common practice (no source)
const PIECE_STEP_G = 5; // our own choice
const FRACTION_STEP = 0.01; // shares of a dose, to the hundredth: our own choice

/** A figure rounded as a kitchen reads it. */
export const kitchenMinutes = (minutes: number): number =>
  minutes >= MINUTES_FROM ? Math.round(minutes / 5) * 5 : Math.max(1, Math.round(minutes));
const toStep = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(6));

/**
 * The make as a draft.
 * @param input.make that the last record followed, with what was chosen in it
 * @throws InputError where what was seen does not make a whole make
 */
export function asMade(input: { readonly make: Make; readonly seen: Seen; readonly written: Written }): Make {
  const { make, seen, written } = input;
  const source = make.sources.length;
  const steps = make.steps.map((step) => {
    const here = seen.steps.find(({ stepId }) => stepId === step.id);
    return here === undefined ? step : seenInStep({ step, seen: here, pieceG: seen.pieceG, source, neutral: written.neutral });
  });
  const made = {
    ...make,
    id: written.id,
    version: 1,
    status: 'draft' as const,
    name: written.name,
    about: written.about,
    aims: make.aims.map((aim) => (aim.quantity === 'cheesePerMilkKgPerL' && seen.cheesePerMilkKgPerL !== null ? { ...aim, ...around(aim, seen.cheesePerMilkKgPerL, 0.001), source } : aim)),
    doses: seenDoses(make, seen, source),
    steps,
    sources: [...make.sources, written.source],
  };
  return parseMake({ ...made, ...(make.free === undefined ? {} : { free: freed({ ...make, steps }, source) }) });
} // prettier-ignore

interface Ranged {
  readonly low: number;
  readonly high: number;
}

/** The figure seen as the aim, and the make's own range widened where it does not hold it. */
function around(range: Ranged, { low, middle, high }: SeenFigures, step: number) {
  const aim = toStep(middle, step);
  return { low: Math.min(range.low, toStep(low, step), aim), aim, high: Math.max(range.high, toStep(high, step), aim) };
}

/** Doses by their own data: whatever is dosed per litre, per share or per kilogram is scaled by the share that went in. */
function seenDoses(make: Make, seen: Seen, source: number): Readonly<Record<string, unknown>> {
  const doses: Record<string, unknown> = { ...make.doses };
  for (const { ingredient, fraction } of seen.doses) {
    const dose = doses[ingredient];
    if (typeof dose !== 'object' || dose === null) continue;
    // What went in as planned is the make's own dose still, with its own source.
    if (fraction.low > 0.995 && fraction.high < 1.005) continue;
    doses[ingredient] = Object.fromEntries(Object.entries(dose).map(([name, figure]) => [name, scaled(figure, fraction, source)]));
  }
  return doses;
} // prettier-ignore

function scaled(figure: unknown, fraction: SeenFigures, source: number): unknown {
  if (typeof figure !== 'object' || figure === null || Array.isArray(figure)) return figure;
  if ('aim' in figure && 'low' in figure && 'high' in figure && typeof figure.aim === 'number' && typeof figure.low === 'number' && typeof figure.high === 'number') {
    const { aim, low, high } = figure;
    const seen = { low: aim * fraction.low, middle: aim * fraction.middle, high: aim * fraction.high, count: fraction.count };
    return { ...around({ low, high }, seen, FRACTION_STEP), source };
  }
  return 'value' in figure && typeof figure.value === 'number' ? { value: toStep(figure.value * fraction.middle, FRACTION_STEP / 100), source } : figure;
} // prettier-ignore

function seenInStep(input: {
  readonly step: Step;
  readonly seen: SeenStep;
  readonly pieceG: SeenFigures | null;
  readonly source: number;
  readonly neutral: boolean;
}): Step {
  const { step, seen, pieceG, source, neutral } = input;
  const figure = (value: number): Figure => ({ value, source });
  const warmC = seen.temperatureC === null ? null : toStep(seen.temperatureC.middle, TEMPERATURE_STEP_C);
  const isPot = seen.temperatureC !== null && seen.temperatureC.sample !== 'water' && seen.temperatureC.sample !== 'brine' && seen.temperatureC.sample !== 'room'; // prettier-ignore
  const set = {
    ...step.set,
    ...(warmC !== null && isPot && step.set.toC !== undefined ? { toC: figure(warmC) } : {}),
    ...(warmC !== null && seen.temperatureC?.sample === 'brine' && step.set.brineC !== undefined
      ? { brineC: figure(warmC) }
      : {}),
    ...(pieceG !== null && step.set.pieceG !== undefined
      ? { pieceG: figure(toStep(pieceG.middle, PIECE_STEP_G)) }
      : {}),
  };
  const of = step.until.of.map((condition): Step['until']['of'][number] => {
    switch (condition.kind) {
      case 'time':
        return seen.minutes === null ? condition : { ...condition, minutes: figure(kitchenMinutes(seen.minutes.middle)) };
      case 'temperature':
        return warmC === null || !isPot || step.set.toC === undefined ? condition : { ...condition, atC: figure(warmC) };
      case 'pH':
        return seen.pH === null || seen.pH.sample !== condition.sample ? condition : { ...condition, at: figure(toStep(seen.pH.middle, PH_STEP)) };
      case 'judgement': {
        const graded = seen.grades.filter(({ judgement }) => judgement === condition.judgement);
        const most = [...graded].sort((a, b) => b.count - a.count)[0];
        return most === undefined ? condition : { ...condition, grade: most.grade, source };
      }
      default:
        return condition;
    }
  });
  const kept = neutral && isHeated(step) ? withoutTime(of) : of;
  return { ...step, set, until: { ...step.until, of: kept } };
} // prettier-ignore

/** A step that a burner brings to its end. */
export const isHeated = (step: Pick<Step, 'kit' | 'set' | 'until'>): boolean =>
  step.kit.includes('burner') && step.set.toC !== undefined;

/** Without the minutes, where something that can be seen ends the step too. */
function withoutTime(of: Step['until']['of']): Step['until']['of'] {
  const seen = of.filter(({ kind }) => kind !== 'time');
  return seen.length === 0 ? of : seen;
}

/** What may be chosen, widened where the figure that was seen lies outside. */
function freed(make: Pick<Make, 'steps' | 'free'>, source: number): Make['free'] {
  return make.free?.map((free) => {
    const [place] = free.places;
    const step = make.steps.find(({ id }) => id === place?.step);
    const own = place === undefined || step === undefined ? null : placedIn(step, place);
    if (own === null || (own >= free.low && own <= free.high)) return free;
    return { ...free, low: Math.min(free.low, own), high: Math.max(free.high, own), source };
  });
}
