/**
 * Milk set to a fat, or to a casein for each part of fat, by adding cream, skim milk or skim milk powder. Mass balances: one
 * addition for one target (what dairies draw as Pearson's square), two at once for two. Never one square after another:
 * the second would undo the first.
 */
import { InputError, type Problem, requireWithin, type Validity } from '../numbers/validity.ts';

/** A milk, cream or powder by mass: how much there is, and what is in it. */
export interface Stream {
  readonly fatPercent: number;
  readonly caseinPercent: number;
}

export interface StandardMilk extends Stream {
  readonly massKg: number;
}

export interface OneTarget {
  readonly milk: StandardMilk;
  readonly addition: Stream;
  /** Exactly one of the two. */
  readonly targetFatPercent?: number;
  readonly targetCaseinToFat?: number;
}

export interface TwoTargets {
  readonly milk: StandardMilk;
  readonly additions: readonly [Stream, Stream];
  readonly targetFatPercent: number;
  readonly targetCaseinToFat: number;
}

const LEAST_LEVER = 1e-9; // a denominator below this is no addition at all: rounding of floating point only
const LARGEST_ADDITION = 20; // kg for each kg of milk: our own bound, beyond it another milk is being standardised

export const standardiseValidity: Validity = {
  fatPercent: { low: 0, high: 85, unit: '%', source: 'skim milk to the richest cream' },
  caseinPercent: { low: 0, high: 85, unit: '%', source: 'cream to casein powder' },
  targetFatPercent: { low: 0, high: 60, unit: '%', source: 'skim milk to double cream (our own bounds)' },
  targetCaseinToFat: {
    low: 0.1,
    high: 20,
    unit: 'kg/kg',
    source: 'cream cheese to part-skim hard cheese (our own bounds)',
  },
};

/**
 * Kernel of `additionKg`: m = m0 (x_t - x_0) / (x_a - x_t) for fat, m0 (r F0 - C0) / (Ca - r Fa) for casein to fat; may be
 * negative or infinite where the addition pulls the wrong way.
 */
export function additionKernel({ milk, addition, targetFatPercent, targetCaseinToFat }: OneTarget): number {
  if (targetFatPercent !== undefined) {
    return balance(milk.massKg * (targetFatPercent - milk.fatPercent), addition.fatPercent - targetFatPercent);
  }
  const ratio = targetCaseinToFat ?? 0;
  return balance(
    milk.massKg * (ratio * milk.fatPercent - milk.caseinPercent),
    addition.caseinPercent - ratio * addition.fatPercent,
  );
}

function balance(wanted: number, perKg: number): number {
  if (Math.abs(wanted) < LEAST_LEVER) return 0;
  return Math.abs(perKg) < LEAST_LEVER ? Number.POSITIVE_INFINITY : wanted / perKg;
}

/**
 * How much cream, skim milk or powder brings the milk to one target.
 *
 * Fat: m = m0 (x_t - x_0) / (x_a - x_t). Casein to fat r: m = m0 (r F0 - C0) / (Ca - r Fa). Masses, not litres.
 *
 * @param input.milk  mass [kg], fat and casein [%]
 * @param input.addition  fat and casein of what is added [%]
 * @param input.targetFatPercent  fat wanted [%], 0 to 60; or
 * @param input.targetCaseinToFat  casein wanted for each part of fat [kg/kg], 0.1 to 20
 * @returns what to add [kg], 0 or more
 * Valid: as `standardiseValidity`. Uncertainty: none of its own; that of the analyses.
 * @throws InputError `unreachable` where no amount of this addition gets there, `contradiction` without exactly one target
 * @source mass balance; check 160 kg of 40 % cream to 32 % takes 40 kg of skim (teaching page, seen)
 */
export function additionKg(input: OneTarget): number {
  const { milk, addition, targetFatPercent, targetCaseinToFat } = input;
  if ((targetFatPercent === undefined) === (targetCaseinToFat === undefined)) {
    throw new InputError([
      {
        code: 'contradiction',
        field: 'targetFatPercent',
        value: targetFatPercent,
        expected: 'one of targetFatPercent or targetCaseinToFat',
        remedy: 'Give one of them; for both at once a second addition is needed.',
      },
    ]);
  }
  requireWithin(standardiseValidity, { ...milk, targetFatPercent, targetCaseinToFat });
  requireWithin(standardiseValidity, { ...addition });
  const massKg = additionKernel(input);
  if (!(massKg >= 0 && massKg <= LARGEST_ADDITION * milk.massKg)) {
    throw new InputError([targetFatPercent === undefined ? outOfRatio(input) : outOfFat(input)]);
  }
  return massKg;
}

function outOfFat({ milk, addition, targetFatPercent }: OneTarget): Problem {
  const [low, high] = [milk.fatPercent, addition.fatPercent].sort((a, b) => a - b);
  return {
    code: 'unreachable',
    field: 'targetFatPercent',
    value: targetFatPercent,
    unit: '%',
    expected: `between ${low} and ${high} %, the fat of the milk and of what is added`,
    remedy: 'Add something that lies on the other side of the target: cream for more fat, skim milk for less.',
  };
}

function outOfRatio({ milk, addition, targetCaseinToFat }: OneTarget): Problem {
  const ratioOf = ({ caseinPercent, fatPercent }: Stream): string =>
    fatPercent > 0 ? (caseinPercent / fatPercent).toFixed(3) : 'no fat at all';
  return {
    code: 'unreachable',
    field: 'targetCaseinToFat',
    value: targetCaseinToFat,
    unit: 'kg/kg',
    expected: `between that of the milk (${ratioOf(milk)}) and that of what is added (${ratioOf(addition)})`,
    remedy: 'Add skim milk or powder for more casein to the fat, cream for less.',
  };
}

/**
 * How much of two additions brings the milk to a fat and a casein-to-fat at once.
 *
 * Two balances solved together: (F1 - x) a + (F2 - x) b = m0 (x - F0), and (C1 - r x) a + (C2 - r x) b = m0 (r x - C0).
 *
 * @param input.milk  mass [kg], fat and casein [%]
 * @param input.additions  the two, fat and casein [%]
 * @param input.targetFatPercent  fat wanted [%], 0 to 60
 * @param input.targetCaseinToFat  casein wanted for each part of fat [kg/kg], 0.1 to 20
 * @returns kg of each, 0 or more, in the order given
 * Shapes: a pair.
 * Valid: as `standardiseValidity`. Uncertainty: none of its own; that of the analyses.
 * @throws InputError `unreachable` where either would have to be taken out instead of added
 * @source mass balance
 */
export function twoAdditionsKg(input: TwoTargets): readonly [number, number] {
  const { milk, additions, targetFatPercent, targetCaseinToFat } = input;
  requireWithin(standardiseValidity, { ...milk, targetFatPercent, targetCaseinToFat });
  for (const addition of additions) requireWithin(standardiseValidity, { ...addition });
  const [one, two] = additions;
  const x = targetFatPercent;
  const c = targetCaseinToFat * x;
  const [a11, a12, a21, a22] = [one.fatPercent - x, two.fatPercent - x, one.caseinPercent - c, two.caseinPercent - c];
  const [b1, b2] = [milk.massKg * (x - milk.fatPercent), milk.massKg * (c - milk.caseinPercent)];
  const determinant = a11 * a22 - a12 * a21;
  const masses = [(b1 * a22 - b2 * a12) / determinant, (a11 * b2 - a21 * b1) / determinant] as const;
  const slack = LEAST_LEVER * milk.massKg;
  const [first, second] = masses;
  const isPossible =
    Math.abs(determinant) > LEAST_LEVER &&
    first >= -slack &&
    second >= -slack &&
    first + second <= LARGEST_ADDITION * milk.massKg;
  if (!isPossible) {
    const signs = masses.map((massKg) => (Number.isFinite(massKg) ? massKg.toFixed(2) : 'no answer')).join(' and ');
    throw new InputError([
      {
        code: 'unreachable',
        field: 'targetCaseinToFat',
        value: targetCaseinToFat,
        unit: 'kg/kg',
        expected: `a fat and a casein to fat that these two can reach together (the balance asks for ${signs} kg)`,
        remedy: 'Change one target, or take another addition: less than nothing cannot be added.',
      },
    ]);
  }
  return [Math.max(0, first), Math.max(0, second)];
}

/**
 * What the milk is after the additions.
 * @param streams  each with its mass [kg], fat and casein [%]
 * @returns mass [kg], fat and casein [%]
 * Valid: any masses, not all 0. Uncertainty: none of its own.
 * @source mass balance
 */
export function mixed(streams: readonly StandardMilk[]): StandardMilk {
  const massKg = streams.reduce((sum, each) => sum + each.massKg, 0);
  const share = (part: (each: StandardMilk) => number): number =>
    streams.reduce((sum, each) => sum + each.massKg * part(each), 0) / massKg;
  return { massKg, fatPercent: share((each) => each.fatPercent), caseinPercent: share((each) => each.caseinPercent) };
}
