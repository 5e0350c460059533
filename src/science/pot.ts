/**
 * The pot: how wide, how heavy, how much heat its metal holds, and how many centimetres a litre of whey stands.
 * From its volume alone where nothing else is known: a cook's pot is about as wide inside as it is deep.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';

export type PotMaterial = 'steel' | 'aluminium' | 'copper' | 'enamel';

/** What a pot is, with everything guessed that was not given. */
export interface Pot {
  /** Brimful volume. */
  readonly capacityL: number;
  readonly insideMm: number;
  readonly heightMm: number;
  readonly massKg: number;
  readonly material: PotMaterial;
}

export interface PotInput {
  readonly capacityL: number;
  readonly insideMm?: number;
  readonly massKg?: number;
  readonly material?: PotMaterial;
}

export const POT_KG_PER_L = 0.3; // common practice (no source): kitchen pots weigh 0.25 to 0.35 kg per litre
export const FILL_FRACTION = 0.85; // common practice (no source): a pot is filled to about 85 %

/** Specific heat [kJ/(kg K)]: standard handbook values, from memory. */
const METAL_SPECIFIC_HEAT: Readonly<Record<PotMaterial, number>> = {
  steel: 0.5,
  aluminium: 0.9,
  copper: 0.385,
  enamel: 0.48,
};

/** Emissivity of the outside [-]: bright steel 0.15 to 0.3, enamel 0.85 to 0.9; metals from memory. */
export const POT_EMISSIVITY: Readonly<Record<PotMaterial, number>> = {
  steel: 0.25,
  aluminium: 0.1,
  copper: 0.1,
  enamel: 0.88,
};

const HERE = 'our own limits: 2 to 500 L vats with room around them';

export const potValidity: Validity = {
  capacityL: { low: 0.2, high: 2000, unit: 'L', source: HERE },
  insideMm: { low: 50, high: 3000, unit: 'mm', source: HERE },
  massKg: { low: 0, high: 2000, unit: 'kg', source: HERE },
  milkL: { low: 0.5, high: 1000, unit: 'L', source: HERE },
};

/**
 * A pot from what is known of it; the rest as a kitchen pot of that volume has it.
 *
 * Inside diameter = height, so D = (4 V / pi)^(1/3); mass 0.3 kg per litre of capacity.
 *
 * @param input.capacityL  brimful volume [L], 0.2 to 2000
 * @param input.insideMm  inside diameter [mm], 50 to 3000; then the height follows from the volume
 * @param input.massKg  empty, without lid [kg], 0 to 2000
 * @param input.material  steel where it is not said
 * @returns the whole pot
 * Valid: as `potValidity`. Uncertainty: mass within a third, width within a tenth (our own estimate).
 * @throws InputError naming the field, its value and the range
 * @source common practice (no source)
 */
export function potFor(input: PotInput): Pot {
  requireWithin(potValidity, { ...numbersOf(input) });
  const volumeMm3 = input.capacityL * 1e6;
  const insideMm = input.insideMm ?? Math.cbrt((4 * volumeMm3) / Math.PI);
  return {
    capacityL: input.capacityL,
    insideMm,
    heightMm: volumeMm3 / floorMm2(insideMm),
    massKg: input.massKg ?? POT_KG_PER_L * input.capacityL,
    material: input.material ?? 'steel',
  };
}

const numbersOf = (input: PotInput): Record<string, number | undefined> => ({
  capacityL: input.capacityL,
  insideMm: input.insideMm,
  massKg: input.massKg,
});

/**
 * The pot that a volume of milk would be put into: filled to 85 %.
 * @throws InputError below 0.5 or above 1000 L, naming `milkL`
 */
export function potForMilk(input: Omit<PotInput, 'capacityL'> & { readonly milkL: number }): Pot {
  const { milkL, ...rest } = input;
  requireWithin(potValidity, { milkL });
  return potFor({ ...rest, capacityL: milkL / FILL_FRACTION });
}

/** Heat that the pot's metal takes up per kelvin [kJ/K]. */
export function potHeatCapacityKJPerK(pot: Pick<Pot, 'massKg' | 'material'>): number {
  return pot.massKg * METAL_SPECIFIC_HEAT[pot.material];
}

const floorMm2 = (insideMm: number): number => (Math.PI / 4) * insideMm * insideMm;

/**
 * Litres that a fall of the level means: V = pi/4 D^2 d.
 *
 * @param input.depthCm  height of liquid drawn or added [cm]
 * @param input.insideMm  inside diameter [mm], straight walls
 * @returns volume [L]
 * Valid: straight-sided round pots. Uncertainty: 2 % for 1 % in the diameter.
 * @source geometry
 */
export function litresFromDepthCm(input: { readonly depthCm: number; readonly insideMm: number }): number {
  return (floorMm2(input.insideMm) * input.depthCm * 10) / 1e6;
}

/** How far the level falls when so many litres are drawn [cm]: the inverse of `litresFromDepthCm`. */
export function depthCmFromLitres(input: { readonly volumeL: number; readonly insideMm: number }): number {
  return (input.volumeL * 1e6) / floorMm2(input.insideMm) / 10;
}
