/** One question under way: its axes, the places looked at so far, and what was found there. */
import { quantileSorted } from '../numbers/stats.ts';
import type { Adjustable } from '../make/adjustable.ts';
import { aimValues, isMet } from './aim-values.ts';
import { START, type Question, type Wanted } from './question.ts';
import { axesOf, unitOf, valueOn, type Axis } from './solve-axes.ts';
import { commonMembers, settled, type Case, type Settings, type Tried } from './solve-members.ts';
import type { Box, Place } from './solve-search.ts';
import { surfaceOf, type Looked, type Surface } from './solve-surface.ts';

/** A look into a box, and the surface inside it. */
export interface Look extends Surface {
  readonly box: Box;
}

const DAY_END: Wanted = { quantity: 'endMin', low: 0, high: Number.POSITIVE_INFINITY };

/** The places a question looks at. The same members everywhere, so that a place differs from another by its settings alone. */
export class Trials {
  readonly axes: readonly Axis[];
  readonly aims: readonly Wanted[];
  /** As it stands, on the axes; outside -1 to 1 where a bound leaves it out. */
  readonly home: readonly number[];
  runs = 0;
  readonly #on: Case;
  readonly #common: ReturnType<typeof commonMembers>;
  readonly #looked = new Map<string, Looked>();

  constructor(input: {
    readonly on: Case;
    readonly question: Question;
    readonly members: number;
    readonly seed: number;
  }) {
    const { on, question } = input;
    this.#on = on;
    this.aims = question.aims;
    this.#common = commonMembers(input);
    const { asItStands } = this.#common;
    this.runs += asItStands.runs.length;
    this.axes = axesOf({ question, adjustables: on.adjustables, expected: (one) => lengthOf(asItStands, one) });
    this.home = this.axes.map((axis) => unitOf(axis, axis.was));
  }

  /** Values of the free inputs at a place; what stays as it is (within what anybody can set) is left out. */
  settingsAt(at: readonly number[]): Settings {
    const changed = this.axes.flatMap((axis, index): (readonly [string, number])[] => {
      const value = valueOn(axis, at[index] ?? 0);
      return this.#isHome(axis, value) ? [] : [[axis.id, value]];
    });
    return Object.fromEntries(changed);
  }

  #isHome = (axis: Axis, value: number): boolean => Math.abs(value - axis.was) < axis.step / 2;

  /** A place moved to what can be set. */
  snapped(at: readonly number[]): number[] {
    return this.axes.map((axis, index) => {
      const value = valueOn(axis, at[index] ?? 0);
      return this.#isHome(axis, value) ? (this.home[index] ?? 0) : unitOf(axis, value);
    });
  }

  /** Runs all members at a place, moved to what can be set; a place looked at before is not run again. */
  look(place: readonly number[]): Looked {
    const at = this.snapped(place);
    const key = at.map((x) => x.toFixed(6)).join(' ');
    const known = this.#looked.get(key);
    if (known !== undefined) return known;
    const { [START]: shiftMin = 0, ...settings } = this.settingsAt(at);
    const isHome = Object.keys(settings).length === 0;
    const tried = isHome ? this.#common.asItStands : this.#common.under(settled(this.#on, settings).plan);
    if (!isHome) this.runs += tried.runs.length;
    const values = valuesOf({ aims: this.aims, tried, shiftMin });
    const ends = valuesOf({ aims: [DAY_END], tried, shiftMin })[0] ?? new Float64Array();
    const looked: Looked = { at, values, endMin: ends.reduce((sum, end) => sum + end / ends.length, 0) }; // prettier-ignore
    this.#looked.set(key, looked);
    return looked;
  }

  /** Looks at the given places of a box, and fits what lies inside it. */
  lookInto(box: Box, places: readonly (readonly number[])[]): Look {
    for (const place of places) this.look(place);
    const within = (x: number, axis: number): boolean => x >= (box.low[axis] ?? -1) - EDGE && x <= (box.high[axis] ?? 1) + EDGE; // prettier-ignore
    const looked = [...this.#looked.values()].filter(({ at }) => at.every(within));
    const surface = surfaceOf({ looked, aims: this.aims });
    return { box, ...surface };
  }

  /** Every place between the bounds where the members themselves were seen. */
  seen({ seen }: Surface): Place[] {
    const looked = [...this.#looked.values()].filter(({ at }) => at.every((x) => Math.abs(x) <= 1 + EDGE));
    return looked.map((one) => ({ at: one.at, standing: seen(one) }));
  }

  /** Aims that none of the free inputs moves by as much as a twentieth of their own scatter. */
  unmoved(): number[] {
    const home = this.look(this.home);
    return this.aims.flatMap((_, index) => {
      const own = home.values[index] ?? new Float64Array();
      const scatter = deviation(own);
      const moves = [...this.#looked.values()].map(({ values }) => Math.abs(mean(values[index] ?? own) - mean(own)));
      return Math.max(...moves) < UNMOVED * scatter ? [index] : [];
    });
  }
}

const EDGE = 0.05; // a place moved to what can be set may lie this far outside a box
const UNMOVED = 0.05; // of the members' standard deviation: our own choice

/** One array an aim, one value a member; a later start moves every end of the day. */
export function valuesOf(input: {
  readonly aims: readonly Wanted[];
  readonly tried: Pick<Tried, 'course' | 'runs'>;
  readonly shiftMin: number;
}): Float64Array[] {
  return input.aims.map((wanted) => {
    const values = aimValues({ ...input.tried, wanted });
    return wanted.quantity === 'endMin' ? values.map((value) => value + input.shiftMin) : values;
  });
}

/** Share of members that meet every aim. */
export function shareOf(aims: readonly Wanted[], values: readonly Float64Array[]): number {
  const members = values[0]?.length ?? 0;
  let met = 0;
  for (let m = 0; m < members; m++) {
    if (aims.every((aim, index) => isMet(aim, values[index]?.[m] ?? Number.NaN))) met++;
  }
  return aims.length === 0 ? 1 : members === 0 ? 0 : met / members;
}

/** What a step's length is expected to be where the make leaves it to the cheese. */
function lengthOf({ course, runs }: Tried, { stepId }: Adjustable): number {
  const index = course.steps.findIndex((step) => step.id === stepId);
  const lengths = runs.map((run) => (run.endMin[index] ?? 0) - (run.startMin[index] ?? 0)).sort((a, b) => a - b);
  return Math.round(quantileSorted(lengths, 0.5));
}

const mean = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / Math.max(values.length, 1); // prettier-ignore
const deviation = (values: Float64Array): number => Math.sqrt(mean(values.map((value) => (value - mean(values)) ** 2)));
