/**
 * The shapes cheese comes in, as products of one-dimensional bodies: ball, wheel or log, brick.
 * Everything that cools, salts or dries by size starts here.
 */
import { InputError, type Problem } from '../numbers/validity.ts';
import { fractionAtKernel, meanFractionKernel, seriesTerms, type SeriesShape, type SeriesTerms } from './series.ts';

export type BodyShape = 'sphere' | 'cylinder' | 'brick';

/** `mm`: diameter (sphere), diameter and height (cylinder), three edges (brick). */
export interface Body {
  readonly shape: BodyShape;
  readonly mm: readonly number[];
}

/** One direction in which heat or salt travels: its shape and half thickness or radius. */
export interface BodyAxis {
  readonly shape: SeriesShape;
  readonly halfLengthM: number;
}

const SIZES: Readonly<Record<BodyShape, number>> = { sphere: 1, cylinder: 2, brick: 3 };
const LARGEST_MM = 2000; // our own choice: above any cheese
const SMALLEST_MM = 0.1; // our own choice: below any grain of curd

/**
 * Refuses a body whose list of sizes does not fit its shape.
 * @throws InputError with code `impossible` naming the field `mm`
 */
export function requireBody(body: Body): void {
  const wanted = SIZES[body.shape];
  const problems: Problem[] = [];
  if (body.mm.length !== wanted) {
    problems.push({
      code: 'impossible',
      field: 'mm',
      value: body.mm,
      unit: 'mm',
      expected: { sphere: 'one size: the diameter', cylinder: 'two sizes: diameter and height', brick: 'three edges' }[
        body.shape
      ],
      remedy: 'Give the sizes in millimetres, in that order.',
    });
  }
  for (const size of body.mm) {
    if (!(size >= SMALLEST_MM && size <= LARGEST_MM)) {
      problems.push({
        code: Number.isFinite(size) ? 'impossible' : 'not-a-number',
        field: 'mm',
        value: size,
        unit: 'mm',
        expected: `${SMALLEST_MM} to ${LARGEST_MM} mm`,
        remedy: 'Measure the cheese in millimetres.',
      });
    }
  }
  if (problems.length > 0) throw new InputError(problems);
}

const size = (body: Body, i: number): number => (body.mm[i] ?? 0) / 1000;

/** The one-dimensional bodies whose product is this body. A ball has one axis, a wheel two, a brick three. */
export function bodyAxes(body: Body): BodyAxis[] {
  if (body.shape === 'sphere') return [{ shape: 'sphere', halfLengthM: size(body, 0) / 2 }];
  if (body.shape === 'cylinder') {
    return [
      { shape: 'cylinder', halfLengthM: size(body, 0) / 2 },
      { shape: 'slab', halfLengthM: size(body, 1) / 2 },
    ];
  }
  return [0, 1, 2].map((i) => ({ shape: 'slab', halfLengthM: size(body, i) / 2 }));
}

/** Volume of the body [m3]. */
export function bodyVolumeM3(body: Body): number {
  const [a, b, c] = [size(body, 0), size(body, 1), size(body, 2)];
  if (body.shape === 'sphere') return (Math.PI / 6) * a ** 3;
  return body.shape === 'cylinder' ? (Math.PI / 4) * a * a * b : a * b * c;
}

/** Whole surface of the body [m2]. */
export function bodyAreaM2(body: Body): number {
  const [a, b, c] = [size(body, 0), size(body, 1), size(body, 2)];
  if (body.shape === 'sphere') return Math.PI * a * a;
  return body.shape === 'cylinder' ? Math.PI * a * (a / 2 + b) : 2 * (a * b + b * c + a * c);
}

/** A ball's diameter from its volume [mm]. */
export function ballDiameterMm(volumeM3: number): number {
  return 1000 * Math.cbrt((6 * volumeM3) / Math.PI);
}

/** Terms for every axis of a body, worked out once for many times. */
export interface BodyTerms {
  readonly axes: readonly BodyAxis[];
  readonly terms: readonly SeriesTerms[];
}

/**
 * Prepares a body for `bodyFractions`.
 * @param input.body  shape and sizes [mm]
 * @param input.surfacePerM  h / k, surface transfer over inner conductivity [1/m]; Infinity allowed
 * @throws InputError for sizes that do not fit the shape
 */
export function bodyTerms(input: { readonly body: Body; readonly surfacePerM: number }): BodyTerms {
  requireBody(input.body);
  const axes = bodyAxes(input.body);
  return {
    axes,
    terms: axes.map((axis) => seriesTerms({ shape: axis.shape, biot: input.surfacePerM * axis.halfLengthM })),
  };
}

/** Shares of the first difference to the bath that are left after a time. */
export interface BodyFractions {
  readonly centre: number;
  readonly mean: number;
  /** Middle of the face nearest to the centre, the warmest place of a cooling surface. */
  readonly surface: number;
}

/**
 * How much of the first difference to the bath is left at the centre, on the mean and on the surface.
 *
 * Product of the one-dimensional shares (Newman's rule), each with Fo = diffusivity t / half length^2.
 *
 * @param input.prepared  from `bodyTerms`
 * @param input.diffusivityM2PerS  of heat or salt [m2/s]
 * @param input.seconds  time in the bath [s], 0 or more
 * @returns three shares [-], 1 at the start
 * Valid: uniform at the start, constant bath, same surface transfer all round. Uncertainty: as the inputs.
 * @source Newman (1936) Ind. Eng. Chem. 28:545 (from memory, not seen)
 */
export function bodyFractions(input: {
  readonly prepared: BodyTerms;
  readonly diffusivityM2PerS: number;
  readonly seconds: number;
}): BodyFractions {
  const { axes, terms } = input.prepared;
  const thinnest = Math.min(...axes.map((axis) => axis.halfLengthM));
  let centre = 1;
  let mean = 1;
  let surface = 1;
  let isFaceTaken = false;
  axes.forEach((axis, i) => {
    const term = terms[i];
    if (term === undefined) return;
    const fourier = (input.diffusivityM2PerS * input.seconds) / axis.halfLengthM ** 2;
    const here = fractionAtKernel(term, { fourier, position: 0 });
    centre *= here;
    mean *= meanFractionKernel(term, fourier);
    const isFace = !isFaceTaken && axis.halfLengthM === thinnest;
    isFaceTaken ||= isFace;
    surface *= isFace ? fractionAtKernel(term, { fourier, position: 1 }) : here;
  });
  return { centre, mean, surface };
}
