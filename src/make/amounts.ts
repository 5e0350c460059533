/**
 * What goes into the pot and what stands ready, for this milk, these lots and this pot. Plain proportions only; amounts
 * that follow the curd are first estimates, marked `dependsOnCurd`, and the forecast's needs replace them.
 */
import { drySaltAmount, pouredAmounts } from './amounts-poured.ts';
import { UNKNOWN_RENNET } from './fill.ts';
import { dropsFor, spoonsFor, type SpoonRegion } from './kitchen-measures.ts';
import type { Make } from './make.ts';
import type { Amount, OtherMeasure, PlannedStep } from './plan.ts';
import { depthCm } from './pot.ts';
import type { Setup } from './setup.ts';
import { packetShare } from './shares.ts';
import { thinnedFor } from './thinning.ts';

const RENNET_DILUTION = 20; // parts of water; Hill, Cheese making step by step, section E (seen as a reposted copy): 20 times; others 10 to 40
const SOLID_RENNET_WATER_ML = 60; // common practice (no source): a quarter of a cup for a tablet or a pinch of powder
const LEAST_RENNET_WATER_ML = 20; // Vatside's own choice: less cannot be spread over a pot
const MOST_DROPS = 100; // Vatside's own choice: nobody counts further without a mistake
const RENNET_LOSS_PER_MONTH = 0.01; // in the fridge; from memory, no measured rate found
const STRETCH_WATER_PER_CURD = { low: 1.1, typical: 1.3, high: 1.5 } as const; // kg/kg for curd at 32 °C and water at 80 °C, Vatside's own heat balance with and without losses
const ICE_PER_CHEESE = { low: 0.5, typical: 1, high: 1.5 } as const; // kg/kg: 0.45 for the cheese, the rest for its bath water at 15 °C, Vatside's own heat balance
const WITHOUT_ICE_C = 8; // tap water alone gets there; common practice (no source)
/**
 * Brine for each kilogram of cheese [kg]: a bath that one batch weakens by less than half a percent (Vatside's own rule), and a
 * tub in which it just covers the blocks.
 */
export const BRINE_PER_CHEESE = { brine: 5, keepInLiquid: 1 } as const; // kg/kg; the tub: common practice (no source)

interface Fitting {
  readonly make: Make;
  readonly setup: Setup;
  readonly steps: readonly PlannedStep[];
}

/** Every amount of the plan that needs no physics, in the order of the work. */
export function amountsOf(fitting: Fitting): Amount[] {
  return inParts([...fillAmount(fitting), ...fitting.steps.flatMap((step) => amountsForStep({ ...fitting, step }))]);
}

/** Water for three washings is foreseen as one: each of them says which part of it is its own. */
function inParts(amounts: readonly Amount[]): Amount[] {
  return amounts.map((amount) => {
    if (amount.id !== 'wash-water') return amount;
    const all = amounts.filter(({ id }) => id === amount.id).reduce((sum, { value }) => sum + value, 0);
    return all > amount.value ? { ...amount, part: amount.value / all } : amount;
  });
}

/** What the pot is filled with: there when the first step begins. */
function fillAmount({ make, setup, steps: [first] }: Fitting): Amount[] {
  const id = make.milk.fill === 'whey' ? 'whey' : 'milk';
  return first === undefined ? [] : [{ id, unit: 'L', value: setup.milk.volumeL, dependsOnCurd: false, stepId: first.id }]; // prettier-ignore
}

function amountsForStep(input: Fitting & { readonly step: PlannedStep }): Amount[] {
  const { step } = input;
  switch (step.set.ingredient) {
    case 'culture':
      return [cultureAmount(input)];
    case 'calcium':
      return calciumAmounts(input);
    case 'rennet':
      return rennetAmounts(input);
    default:
      break;
  }
  const poured = pouredAmounts(input);
  if (poured.length > 0) return poured;
  switch (step.verb) {
    case 'drySalt':
      return drySaltAmount({ step, curdKg: cheeseKg(input) });
    case 'drawWhey':
      return wheyAmounts(input);
    case 'wash':
      return [{ id: 'wash-water', unit: 'L', value: washL(input), dependsOnCurd: false, stepId: step.id }];
    case 'stretch':
      return [curdShare({ ...input, id: 'stretch-water', unit: 'L', perKg: STRETCH_WATER_PER_CURD })];
    case 'cool':
      return typeof step.set.bathC === 'number' && step.set.bathC >= WITHOUT_ICE_C
        ? []
        : [curdShare({ ...input, id: 'ice', unit: 'kg', perKg: ICE_PER_CHEESE })];
    case 'brine':
    case 'keepInLiquid':
      return isSameBrine(input) ? [] : brineAmounts(input);
    default:
      return [];
  }
}

type AtStep = Fitting & { readonly step: PlannedStep };

function cultureAmount({ setup, step }: AtStep): Amount {
  const { culture, milk } = setup;
  const base = { id: 'culture', dependsOnCurd: false, stepId: step.id } as const;
  if (culture.bulkPercent !== undefined) {
    // By volume: half a per cent of 10 L is 50 mL. The make's own range, 0.3 to 1 %, stands in its file with its source.
    return { ...base, unit: 'mL', value: 10 * culture.bulkPercent * milk.volumeL };
  }
  const treatedL = culture.packetFraction * milk.volumeL;
  const packets = treatedL / culture.packetTreatsL;
  const unread = culture.unreadPacketL;
  const grams = culture.packetMassG === undefined ? undefined : packets * culture.packetMassG;
  return {
    ...base,
    unit: 'packets',
    value: packets,
    kitchen: packetShare(packets),
    ...(unread === undefined
      ? {}
      : { low: treatedL / unread.high, high: treatedL / unread.low, restsOn: 'unread-packet' as const }),
    ...(grams === undefined ? {} : inGrams({ grams, setup })),
  };
}

const SPOONS_OF: Readonly<Record<Setup['units'], SpoonRegion>> = { metric: 'metric', us: 'us', imperial: 'imperial' };

/** The packet's share in grams, and as the nearest spoon with its error. */
function inGrams(input: { readonly grams: number; readonly setup: Setup }): Pick<Amount, 'also' | 'spoon'> {
  const also: OtherMeasure[] = [{ unit: 'g', value: input.grams }];
  if (input.setup.culture.form !== 'freeze-dried') return { also };
  const region = SPOONS_OF[input.setup.units];
  const spoon = spoonsFor({ massG: input.grams, ingredient: 'freeze-dried-culture', region });
  return spoon === null ? { also } : { also, spoon: { words: spoon.words, errorPercent: spoon.errorPercent } };
}

function calciumAmounts({ make, setup, step }: AtStep): Amount[] {
  const dose = make.doses.calcium;
  if (dose === undefined) return [];
  const anhydrousG = dose.gPerL.value * setup.milk.volumeL;
  const { solutionPercent } = setup.calcium;
  const gPerMl = (solutionPercent / 100) * calciumSolutionKgPerL(solutionPercent);
  return [
    {
      id: 'calcium',
      unit: 'mL',
      value: anhydrousG / gPerMl,
      also: [{ unit: 'g', value: anhydrousG }],
      dependsOnCurd: false,
      stepId: step.id,
    },
  ];
}

/** Density of calcium chloride solution, kg/L: 1 + 0.0078 p + 0.00005 p^2, within 0.5 % of 1.28, 1.32 and 1.34 at 30, 33 and 35 %, which are from memory. */
const calciumSolutionKgPerL = (percent: number): number => 1 + 0.0078 * percent + 0.00005 * percent ** 2;

function rennetAmounts({ make, setup, step }: AtStep): Amount[] {
  const { rennet, milk } = setup;
  const kept = Math.exp(-RENNET_LOSS_PER_MONTH * rennet.monthsStored);
  if (make.doses.rennet === undefined) return [];
  const imcu = (make.doses.rennet.imcuPerL.aim * milk.volumeL) / kept;
  const unknown = UNKNOWN_RENNET[rennet.form];
  const known = rennet.strengthImcuPerMl;
  const value = imcu / (known ?? unknown.strength);
  const band = known === undefined ? { low: imcu / unknown.high, high: imcu / unknown.low } : {};
  const isLiquid = rennet.form === 'liquid';
  const waterMl = isLiquid ? Math.max(LEAST_RENNET_WATER_ML, RENNET_DILUTION * value) : SOLID_RENNET_WATER_ML;
  const base = { dependsOnCurd: false, stepId: step.id } as const;
  const water: Amount = { ...base, id: 'rennet-water', unit: 'mL', value: waterMl };
  if (rennet.form === 'tablet') return [tabletAmount({ ...base, tablets: value, ...band }), water];
  const drops = isLiquid ? dropsOf({ ml: value, ...(rennet.dropsPerMl === undefined ? {} : { perMl: rennet.dropsPerMl }) }) : null; // prettier-ignore
  const words = (isLiquid ? thinnedFor({ volumeML: value }) : null)?.words ?? drops?.words;
  return [
    {
      ...base,
      id: 'rennet',
      unit: isLiquid ? 'mL' : 'g',
      value,
      ...band,
      ...(drops === null ? {} : { also: [drops.measure] }),
      ...(words === undefined ? {} : { kitchen: { words } }),
    },
    water,
  ];
}

function dropsOf(input: {
  readonly ml: number;
  readonly perMl?: number;
}): { readonly words: string; readonly measure: OtherMeasure } | null {
  const { ml, perMl } = input;
  const counted = dropsFor({ volumeML: ml, ...(perMl === undefined ? {} : { dropsPerML: perMl }) });
  const value = Math.round(counted.drops);
  if (value > MOST_DROPS || value < 1) return null;
  const coarse = counted.isTooCoarse ? '; one drop is much here, so measure with a syringe' : '';
  if (perMl !== undefined)
    return { words: `${value} drops of this bottle${coarse}`, measure: { unit: 'drops', value } };
  const low = Math.max(1, Math.round(counted.low));
  const high = Math.round(counted.high);
  return {
    words: `about ${value} drops, ${low} to ${high} by the dropper${coarse || '; count the drops in 1 mL of this bottle once'}`,
    measure: { unit: 'drops', value, low, high },
  };
}

/** Tablets are measured by dissolving whole ones and taking a part of the water; a tablet broken by hand is the second best. */
function tabletAmount(input: {
  readonly tablets: number;
  readonly low?: number;
  readonly high?: number;
  readonly stepId: string;
  readonly dependsOnCurd: boolean;
}): Amount {
  const { tablets, low, high, ...base } = input;
  const dissolved = Math.ceil(tablets);
  const perTablet = SOLID_RENNET_WATER_ML;
  const ml = tablets * perTablet;
  return {
    ...base,
    id: 'rennet',
    unit: 'mL',
    value: ml,
    ...(low === undefined || high === undefined ? {} : { low: low * perTablet, high: high * perTablet }),
    kitchen: {
      words: `dissolve ${dissolved === 1 ? 'one tablet' : `${dissolved} tablets`} in ${dissolved * perTablet} mL of cool boiled water and take ${Math.round(ml)} mL of it`,
    },
    also: [{ unit: 'tablets', value: tablets }],
  };
}

/** By the share of the fill where the make says one, else as much as the whey that was drawn. */
const washL = (input: AtStep): number => {
  const share = input.step.set.waterFraction;
  return typeof share === 'number' ? share * input.setup.milk.volumeL : drawnL(input);
};

const drawnL = ({ make, setup }: Fitting): number => {
  const fraction = make.steps.find((step) => step.verb === 'drawWhey')?.set.fractionOfVat?.value ?? 0;
  return fraction * setup.milk.volumeL;
};

function wheyAmounts(input: AtStep): Amount[] {
  const value = drawnL(input);
  if (value === 0) return [];
  const depth = depthCm({ volumeL: value, insideMm: input.setup.pot.insideMm });
  const also: OtherMeasure[] = [{ unit: 'cm', value: depth }];
  return [{ id: 'whey-drawn', unit: 'L', value, also, dependsOnCurd: false, stepId: input.step.id }];
}

/** First guess of the cheese this milk gives, from the make's own aim, kg. */
function cheeseKg({ make, setup }: Fitting): { readonly low: number; readonly aim: number; readonly high: number } {
  const yieldAim = make.aims.find((aim) => aim.quantity === 'cheesePerMilkKgPerL');
  const { low, aim, high } = yieldAim ?? { low: 0.09, aim: 0.12, high: 0.15 }; // common practice (no source): a tenth to a seventh of whole milk
  const litres = setup.milk.volumeL;
  return { low: low * litres, aim: aim * litres, high: high * litres };
}

function curdShare(
  input: AtStep & {
    readonly id: string;
    /** A litre of water stands for its kilogram: the jug is filled cold. */
    readonly unit: 'L' | 'kg';
    readonly perKg: { readonly low: number; readonly typical: number; readonly high: number };
  },
): Amount {
  const cheese = cheeseKg(input);
  return {
    id: input.id,
    unit: input.unit,
    value: cheese.aim * input.perKg.typical,
    low: cheese.low * input.perKg.low,
    high: cheese.high * input.perKg.high,
    dependsOnCurd: true,
    stepId: input.step.id,
  };
}

/** Cheese that stays in the tub it lies in, only elsewhere, wants no second brine. */
function isSameBrine({ steps, step }: AtStep): boolean {
  const before = steps[steps.findIndex(({ id }) => id === step.id) - 1];
  return before?.verb === step.verb && before.set.brinePercent === step.set.brinePercent;
}

function brineAmounts(input: AtStep): Amount[] {
  const percent = input.step.set.brinePercent;
  const cheese = cheeseKg(input);
  const base = { unit: 'kg', dependsOnCurd: true, stepId: input.step.id } as const;
  const perCheese = BRINE_PER_CHEESE[input.step.verb === 'keepInLiquid' ? 'keepInLiquid' : 'brine'];
  const kg = (scale: number): { value: number; low: number; high: number } => ({
    value: cheese.aim * perCheese * scale,
    low: cheese.low * perCheese * scale,
    high: cheese.high * perCheese * scale,
  });
  const brine: Amount = { ...base, id: 'brine', ...kg(1) };
  return typeof percent === 'number' ? [brine, { ...base, id: 'salt', ...kg(percent / 100) }] : [brine];
}
