import { convert, type UnitName } from '../../../numbers/units.ts';
import { bandOf } from '../chart/band-of.ts';
import { bandAt } from '../chart/band-at.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import { displayValue, QUANTITIES, type Quantity, type UnitSystem } from '../../../make/quantity.ts';
import type { Sample } from '../../../make/step.ts';

/** Quantities that the pad can take as a number. */
export type PadQuantity =
  | 'pH'
  | 'temperatureC'
  | 'titratableAcidityD'
  | 'massKg'
  | 'wheyL'
  | 'saltG'
  | 'iceWaterC'
  | 'pieceG'
  | 'brineGPerL'
  | 'brinePercent';

/** A reading that has a tile of its own below the two blocks: a rarer quantity, or a temperature of something else. */
export interface RareReading {
  readonly id: 'massKg' | 'wheyL' | 'titratableAcidityD' | 'saltG' | 'pH' | 'water' | 'brine' | 'room';
  readonly quantity: PadQuantity;
  /** Left out where the step says what it is read in. */
  readonly sample?: Sample;
}

/** The rarer readings of a make; without a meter pH is one of them, and without a brine there is none to measure. */
export function rareReadings(plan: Plan): readonly RareReading[] {
  const isBrined = plan.steps.some((step) => step.verb === 'brine');
  return [
    { id: 'massKg', quantity: 'massKg' },
    { id: 'wheyL', quantity: 'wheyL', sample: 'whey' },
    { id: 'titratableAcidityD', quantity: 'titratableAcidityD' },
    { id: 'saltG', quantity: 'saltG' },
    ...(plan.setup.pHMeter ? [] : [{ id: 'pH', quantity: 'pH' } as const]),
    { id: 'water', quantity: 'temperatureC', sample: 'water' },
    ...(isBrined ? [{ id: 'brine', quantity: 'temperatureC', sample: 'brine' } as const] : []),
    { id: 'room', quantity: 'temperatureC', sample: 'room' },
  ];
}

/** What a pad is set for: quantity, where it is read, and which coarse tiles stand there first. */
export interface PadBlock {
  readonly quantity: PadQuantity;
  readonly sample: Sample;
  readonly unit: string;
  /** Where the pad stands outside the vat: what it is called there. */
  readonly name?: string;
  /** Index of the first of the six coarse tiles; tile k stands for k times the tile step. */
  readonly first: number;
}

export interface Tile {
  readonly index: number;
  /** As printed: "6.4_" on a coarse tile, "6.42" on a fine one. */
  readonly text: string;
  /** In the quantity's canonical unit. */
  readonly value: number;
}

export const COARSE_TILES = 6;
/** Where the tiles for salt stand: about 2 % of the curd (common practice, no source). */
const MIXED_IN_SALT_G_PER_KG = 20;
/** The expected tile is not always at the same place, so that nobody taps by habit; and it is never marked. */
const BEFORE_EXPECTED = 2;

/** The blocks of the pad for a step, its own quantity on top, placed around what is plausible now. */
export function padBlocks(input: {
  readonly step: PlannedStep | null;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly nowMin: number;
  readonly unitsOf: (quantity: PadQuantity) => UnitSystem;
}): readonly PadBlock[] {
  const { step, plan } = input;
  const own = step?.watch.find((watch) => watch.quantity === 'pH' || watch.quantity === 'temperatureC')?.quantity;
  const quantities: PadQuantity[] = plan.setup.pHMeter ? (own === 'temperatureC' ? ['temperatureC', 'pH'] : ['pH', 'temperatureC']) : ['temperatureC']; // prettier-ignore
  return quantities.map((quantity) => blockFor({ ...input, quantity, units: input.unitsOf(quantity) }));
}

/** The block of one quantity, around its likely value. */
export function blockFor(input: {
  readonly quantity: PadQuantity;
  /** What it is read in; left out, what the step says. */
  readonly sample?: Sample | undefined;
  readonly step: PlannedStep | null;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly nowMin: number;
  readonly units: UnitSystem;
}): PadBlock {
  const sample = input.sample ?? sampleOf(input);
  const middle = likelyValue({ ...input, sample });
  const shown = displayValue({ quantity: input.quantity, value: middle, units: input.units });
  const first = Math.floor(shown.value / QUANTITIES[input.quantity].tileStep + 1e-9) - BEFORE_EXPECTED;
  return { quantity: input.quantity, sample, unit: shown.symbol, first: Math.max(first, lowestTile(input)) };
}

/** Where a quantity is read in this step: as the step says, else as the nearest step says. */
export function sampleOf(input: {
  readonly quantity: PadQuantity;
  readonly step: PlannedStep | null;
  readonly plan: Plan;
}): Sample {
  const { quantity, step, plan } = input;
  if (quantity === 'iceWaterC') return 'water';
  if (quantity === 'saltG') return step?.verb === 'brine' ? 'brine' : 'curd';
  const index = step === null ? plan.steps.length - 1 : plan.steps.findIndex((one) => one.id === step.id);
  const watched = (from: readonly PlannedStep[]): Sample | undefined =>
    from.flatMap((one) => one.watch).find((watch) => watch.quantity === quantity)?.sample;
  return (
    watched(plan.steps.slice(index, index + 1)) ??
    watched(plan.steps.slice(0, index + 1).reverse()) ??
    watched(plan.steps.slice(index)) ??
    'milk'
  );
}

/** What the value probably is: as foreseen for this minute, else as this step or the one nearest to it sets it, else the middle of what is plausible. */
function likelyValue(input: Parameters<typeof blockFor>[0] & { readonly sample: Sample }): number {
  const { quantity, forecast, nowMin, sample, plan } = input;
  const band = bandOf({ quantity, sample });
  if (band !== null && forecast !== null) {
    const here = bandAt({ gridMin: forecast.gridMin, band: forecast.bands[band], atMin: Math.max(nowMin, forecast.gridMin[0] ?? 0) }); // prettier-ignore
    if (here !== null) return here.p50;
  }
  const { plausible } = QUANTITIES[quantity];
  switch (quantity) {
    case 'temperatureC':
      if (sample === 'brine') return nearestSet(ahead(input), ['brineC']) ?? 10;
      if (sample === 'room') return plan.setup.roomC;
      if (sample === 'water') return nearestSet(ahead(input), ['waterC', 'bathC']) ?? 2;
      return nearestSet(behind(input), ['atC', 'toC', 'stopAtC', 'curdTargetC']) ?? plan.setup.milk.temperatureC;
    case 'pH':
      return nearestPH(behind(input)) ?? plan.setup.milk.pH ?? 6.6; // centre of fresh milk, as in the table of quantities
    case 'massKg':
      return forecast === null ? plan.setup.milk.volumeL * 0.12 : sample === 'cheese' ? forecast.outcome.cheeseKg.p50 : forecast.outcome.curdKg.p50; // prettier-ignore
    case 'wheyL':
      return forecast?.needs.wheyDrawnL?.p50 ?? plan.setup.milk.volumeL * 0.3;
    case 'saltG':
      return (forecast?.outcome.curdKg.p50 ?? plan.setup.milk.volumeL * 0.12) * MIXED_IN_SALT_G_PER_KG;
    case 'iceWaterC':
      return 0;
    case 'pieceG':
    case 'brineGPerL':
    case 'brinePercent':
    case 'titratableAcidityD':
      return plausible.low * 2;
  }
}

type Standing = Pick<Parameters<typeof blockFor>[0], 'step' | 'plan'>;

/** This step, the ones before it, nearest first: what was warm is still warm. The last step where none runs. */
function behind({ step, plan }: Standing): readonly PlannedStep[] {
  const index = plan.steps.findIndex((one) => one.id === step?.id);
  return plan.steps.slice(0, index === -1 ? undefined : index + 1).reverse();
}

/** This step, the ones after it, then those before: water and brine are made ready ahead. */
function ahead({ step, plan }: Standing): readonly PlannedStep[] {
  const index = Math.max(0, plan.steps.findIndex((one) => one.id === step?.id)); // prettier-ignore
  return [...plan.steps.slice(index), ...plan.steps.slice(0, index).reverse()];
}

function nearestSet(steps: readonly PlannedStep[], names: readonly (keyof PlannedStep['set'])[]): number | null {
  const values = steps.flatMap(({ set }) => names.map((name) => set[name]));
  return values.find((value) => typeof value === 'number') ?? null;
}

function nearestPH(steps: readonly PlannedStep[]): number | null {
  const wanted = steps.flatMap(({ until }) => until.of).find((one) => one.kind === 'pH');
  return wanted?.at.value ?? null;
}

const lowestTile = (input: { readonly quantity: PadQuantity; readonly units: UnitSystem }): number => {
  const quantity: Quantity = QUANTITIES[input.quantity];
  const lowest = displayValue({ quantity: input.quantity, value: quantity.possible.low, units: input.units });
  return Math.floor(lowest.value / quantity.tileStep);
};

/** The six coarse tiles from a first index, in rising order. */
export function coarseTiles(input: {
  readonly block: PadBlock;
  readonly first: number;
  readonly units: UnitSystem;
  readonly write: Writer;
}): readonly Tile[] {
  const quantity: Quantity = QUANTITIES[input.block.quantity];
  return Array.from({ length: COARSE_TILES }, (_, place) => {
    const index = input.first + place;
    const shown = index * quantity.tileStep;
    const written = input.write.number(shown, quantity.decimals);
    const text = index < 0 ? input.write.number((index + 1) * quantity.tileStep, quantity.decimals) : written;
    const minus = index < 0 && !text.startsWith('-') ? '-' : '';
    return {
      index,
      text: `${minus}${text.slice(0, -1)}_`,
      value: canonical({ ...input, quantity: input.block.quantity, shown }),
    };
  });
}

/** The ten fine tiles of a coarse one, in rising order. */
export function fineTiles(input: {
  readonly quantity: PadQuantity;
  readonly coarse: number;
  readonly units: UnitSystem;
  readonly write: Writer;
}): readonly Tile[] {
  const quantity: Quantity = QUANTITIES[input.quantity];
  const perTile = 10;
  return Array.from({ length: perTile }, (_, index) => {
    const shown = Number(((input.coarse * perTile + index) * (quantity.tileStep / perTile)).toFixed(quantity.decimals));
    return { index, text: input.write.number(shown, quantity.decimals), value: canonical({ ...input, shown }) };
  });
}

/** A shown value in the unit that the record keeps. */
function canonical(input: {
  readonly quantity: PadQuantity;
  readonly shown: number;
  readonly units: UnitSystem;
}): number {
  const quantity: Quantity = QUANTITIES[input.quantity];
  const from: UnitName | undefined = quantity.shownIn?.[input.units];
  if (from === undefined || quantity.canonical === undefined || from === quantity.canonical) return input.shown;
  return convert({ value: input.shown, from, to: quantity.canonical });
}
