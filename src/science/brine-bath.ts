/**
 * A cheese in its brine bath: salt after a time, time for a salt, where in the cheese the salt is, when it has evened out.
 * The parts are in `salting.ts`; here they are put together, with a brine that may weaken as the cheese takes its salt.
 */
import { rootBetween } from '../numbers/roots.ts';
import { InputError, requireWithin } from '../numbers/validity.ts';
import { bodyAxes, type Body, type BodyTerms, requireBody } from './body.ts';
import {
  saltDiffusivityKernel,
  type SaltedCheese,
  saltedCheeseKernel,
  type SaltingInput,
  saltingTerms,
  saltingValidity,
  saltPerWaterOf,
  saltTakenKernel,
  saltUptakeFraction,
} from './salting.ts';
import { fractionAtKernel } from './series.ts';

function requireSalting(input: SaltingInput): void {
  requireBody(input.body);
  const { moisturePercent, brinePercent, temperatureC, waterPerSalt, skinMm } = input;
  requireWithin(saltingValidity, { moisturePercent, brinePercent, temperatureC, waterPerSalt, skinMm });
}

const LEAST_SECONDS = 1e-3; // our own choice: nobody lifts a cheese out sooner

const diffusivityOf = (input: SaltingInput): number => (input.diffusivityFactor ?? 1) * saltDiffusivityKernel(input);

/** Strength the cheese works against, over the bath as a whole [kg salt per kg water]. */
function effectiveSaltPerWater(input: SaltingInput, uptakeFraction: number): number {
  const start = saltPerWaterOf(input.brinePercent);
  const { brinePerCheese } = input;
  if (brinePerCheese === undefined || uptakeFraction <= 0) return start;
  // A bath that weakens as sqrt(t) acts like one weaker by pi/4 of its whole loss (Duhamel's integral); at the end, by all
  // of it. The cube between the two is our own fit to the finite-bath slab, within 1 %.
  const weight = Math.PI / 4 + (1 - Math.PI / 4) * uptakeFraction ** 3;
  const endGiven = (effective: number): number => {
    const taken = saltTakenKernel({ ...kernelInput(input, uptakeFraction), saltPerWater: effective - startOf(input) });
    const salt = (brinePerCheese * input.brinePercent) / 100 - taken;
    const water = brinePerCheese * (1 - input.brinePercent / 100) + input.waterPerSalt * taken;
    return salt / water;
  };
  const gap = (effective: number): number => start - weight * (start - endGiven(effective)) - effective;
  const low = Math.min(start, startOf(input));
  return gap(low) * gap(start) < 0 ? rootBetween({ f: gap, low, high: start }) : start;
}

const startOf = (input: SaltingInput): number => (input.startSaltInMoisturePercent ?? 0) / 100;

const kernelInput = (
  input: SaltingInput,
  uptakeFraction: number,
): { uptakeFraction: number; moistureFraction: number; waterPerSalt: number } => ({
  uptakeFraction,
  moistureFraction: input.moisturePercent / 100,
  waterPerSalt: input.waterPerSalt,
});

function saltedAt(input: SaltingInput, uptakeFraction: number): SaltedCheese {
  const moistureFraction = input.moisturePercent / 100;
  const saltPerWater = effectiveSaltPerWater(input, uptakeFraction) - startOf(input);
  return saltedCheeseKernel({
    moistureFraction,
    startSaltPerKg: moistureFraction * startOf(input),
    saltTakenPerKg: saltTakenKernel({ ...kernelInput(input, uptakeFraction), saltPerWater }),
    waterPerSalt: input.waterPerSalt,
  });
}

/**
 * What a cheese is after so many hours in brine. Kernel: terms given, no checks.
 */
export function brinedKernel(
  input: SaltingInput & { readonly prepared: BodyTerms; readonly hours: number },
): SaltedCheese {
  const seconds = 3600 * input.hours;
  return saltedAt(
    input,
    saltUptakeFraction({ prepared: input.prepared, diffusivityM2PerS: diffusivityOf(input), seconds }),
  );
}

/**
 * What a cheese is after so many hours in brine.
 *
 * Salt per kg from `saltTakenKernel`, water out p times that; the brine weakens where its mass is given.
 *
 * @param input.body shape and sizes [mm]
 * @param input.moisturePercent water in the cheese as it goes in [% of mass], 25 to 80
 * @param input.brinePercent brine's strength [% by mass], 1 to 26.7
 * @param input.temperatureC brine and cheese [°C], 0 to 40; checked from 4 to 20
 * @param input.waterPerSalt water out per salt in [g/g], 0 to 6
 * @param input.skinMm rind as cheese of that thickness [mm], 0 to 5
 * @param input.hours in the brine [h], 0 to 5000
 * @returns salt, salt in moisture, moisture and mass change [%], salt in and water out [kg per kg cheese]
 * Valid: as `saltingValidity`.
 * Uncertainty: salt taken 30 % (90 % band) before learning, 12 % after one batch that was weighed and tasted (our own).
 * Assumes: cheese at the brine's temperature, turned so that brine reaches all of it.
 * @throws InputError outside the range
 * @source our own composition; checked against Chamba (1988) Lait 68:121 [abstract seen] and common practice
 */
export function brined(input: SaltingInput & { readonly hours: number }): SaltedCheese {
  requireSalting(input);
  requireWithin(saltingValidity, { hours: input.hours });
  return brinedKernel({ ...input, prepared: saltingTerms(input) });
}

/**
 * Hours in the brine until the cheese holds so much salt, on the mean.
 * @param input as for `brined`
 * @param input.targetSaltPercent salt wanted in the finished cheese [% of mass]
 * @returns hours [h]; 0 where it is there within a millisecond
 * Valid: as `saltingValidity`. Uncertainty: a factor 1.7 either way before learning (30 % of salt goes with its square).
 * @throws InputError with code `unreachable` when even an endless bath gives less; with the most it can give
 * @source as `brined`, solved for time by bracketing
 */
export function hoursToSalt(input: SaltingInput & { readonly targetSaltPercent: number }): number {
  requireSalting(input);
  const { targetSaltPercent } = input;
  const most = saltedAt(input, 1).saltPercent;
  const least = saltedAt(input, 0).saltPercent;
  if (!(targetSaltPercent > least && targetSaltPercent < 0.995 * most)) {
    throw new InputError([
      {
        code: 'unreachable',
        field: 'targetSaltPercent',
        value: targetSaltPercent,
        unit: '%',
        expected: `more than ${least.toFixed(2)} % (the cheese as it goes in) and less than ${most.toFixed(2)} % (all the way to the brine's own strength)`,
        remedy: 'Use a stronger or larger brine, or aim for less salt.',
      },
    ]);
  }
  const prepared = saltingTerms(input);
  const diffusivityM2PerS = diffusivityOf(input);
  const short = (logSeconds: number): number =>
    saltedAt(input, saltUptakeFraction({ prepared, diffusivityM2PerS, seconds: Math.exp(logSeconds) })).saltPercent -
    targetSaltPercent;
  const low = Math.log(LEAST_SECONDS);
  if (short(low) >= 0) return 0; // a crumb, or a trace of salt: there before anyone has looked
  return Math.exp(rootBetween({ f: short, low, high: Math.log(1e10), tolerance: 1e-9 })) / 3600;
}

/** Salt in the moisture at one depth below the middle of the nearest face. */
export interface SaltAtDepth {
  readonly depthMm: number;
  readonly saltInMoisturePercent: number;
}

/**
 * Where in the cheese the salt is as it leaves the brine: from the middle of the nearest face to the centre.
 *
 * c = c0 + (c_brine - c0)(1 - product of the shares left)
 *
 * @param input as for `brined`
 * @param input.points how many depths, first the surface, last the centre; at least 2
 * @returns salt in moisture at each depth [g per 100 g water]
 * Shapes: one row a depth, surface first.
 * Valid: as `saltingValidity`. Uncertainty: as the diffusivity, 35 %; the local loss of water is left out.
 * @throws InputError outside the range
 * @source Crank (1975) The Mathematics of Diffusion [from memory, not seen]
 */
export function saltProfile(
  input: SaltingInput & { readonly hours: number; readonly points: number },
): readonly SaltAtDepth[] {
  requireSalting(input);
  requireWithin(saltingValidity, { hours: input.hours });
  const prepared = saltingTerms(input);
  const diffusivityM2PerS = diffusivityOf(input);
  const seconds = 3600 * input.hours;
  const brine = effectiveSaltPerWater(input, saltUptakeFraction({ prepared, diffusivityM2PerS, seconds }));
  const thinnest = Math.min(...prepared.axes.map((axis) => axis.halfLengthM));
  const along = prepared.axes.findIndex((axis) => axis.halfLengthM === thinnest);
  return Array.from({ length: input.points }, (_, i) => {
    // Depths grow with the square, because the salt is a shell: most of what there is to see lies near the surface.
    const position = 1 - (i / (input.points - 1)) ** 2;
    let left = 1;
    prepared.axes.forEach((axis, j) => {
      const terms = prepared.terms[j];
      if (terms === undefined) return;
      const fourier = (diffusivityM2PerS * seconds) / axis.halfLengthM ** 2;
      left *= fractionAtKernel(terms, { fourier, position: j === along ? position : 0 });
    });
    return {
      depthMm: 1000 * thinnest * (1 - position),
      saltInMoisturePercent: 100 * (startOf(input) + (brine - startOf(input)) * Math.max(0, 1 - left)),
    };
  });
}

/** Slowest way in which salt evens out inside each shape, times the half length: pi, J1's and tan z = z's first zero. */
const EVENING_ROOT = { slab: Math.PI, cylinder: 3.8317, sphere: 4.4934 } as const;

/**
 * Days after the brine until the salt is even to a tenth of its first unevenness.
 *
 * t = 2.303 / (D lambda^2), lambda = root / half length of the thinnest direction
 *
 * @param input.body shape and sizes [mm]
 * @param input.moisturePercent water in the cheese [% of mass], 25 to 80
 * @param input.temperatureC where it lies afterwards [°C], 0 to 40
 * @param input.diffusivityFactor learned factor, default 1
 * @returns days
 * Valid: as `saltingValidity`.
 * Uncertainty: a factor 2: the published 90 days of a Gruyère-type wheel come out as 44.
 * @throws InputError outside the range
 * @source diffusion without flux through the surface, Crank (1975) [from memory, not seen]
 */
export function equaliseDays(input: {
  readonly body: Body;
  readonly moisturePercent: number;
  readonly temperatureC: number;
  readonly diffusivityFactor?: number;
}): number {
  requireBody(input.body);
  const { moisturePercent, temperatureC } = input;
  requireWithin(saltingValidity, { moisturePercent, temperatureC });
  const axes = bodyAxes(input.body);
  const thinnest = axes.reduce((a, b) => (b.halfLengthM < a.halfLengthM ? b : a));
  const lambdaPerM = EVENING_ROOT[thinnest.shape] / thinnest.halfLengthM;
  const diffusivityM2PerS = (input.diffusivityFactor ?? 1) * saltDiffusivityKernel(input);
  return Math.LN10 / (diffusivityM2PerS * lambdaPerM ** 2) / 86_400;
}
