/** Amounts of what only some makes take: acid, cream, milk into whey, powders, colour, dry salt, water by a share of the fill. */
import type { AcidKind, Make } from './make.ts';
import type { Amount, PlannedStep } from './plan.ts';
import type { Setup } from './setup.ts';

/** Mass of a millilitre as poured [g]; crystals are weighed. From memory, within 1 %. */
const ACID_G_PER_ML: Readonly<Record<AcidKind, number | null>> = {
  citric: null,
  vinegar: 1.01,
  lemon: 1.03,
  lactic: 1.19,
};

interface At {
  readonly make: Make;
  readonly setup: Setup;
  readonly step: PlannedStep;
}

/**
 * What the ingredient of a step comes to for this much milk (or whey).
 * @returns nothing where the make gives no dose of it
 */
export function pouredAmounts({ make, setup, step }: At): Amount[] {
  const { doses } = make;
  const litres = setup.milk.volumeL;
  const base = { dependsOnCurd: false, stepId: step.id } as const;
  const scaled = (range: { readonly low: number; readonly aim: number; readonly high: number }, factor: number) => ({ value: range.aim * litres * factor, low: range.low * litres * factor, high: range.high * litres * factor }); // prettier-ignore
  switch (step.set.ingredient) {
    case 'lipase':
    case 'ripeningCulture': {
      const dose = doses[step.set.ingredient];
      const id = step.set.ingredient === 'lipase' ? 'lipase' : 'ripening-culture';
      return dose === undefined ? [] : [{ ...base, id, unit: 'g', value: dose.gPerL.aim * litres }];
    }
    case 'colour':
      return doses.colour === undefined ? [] : [{ ...base, id: 'colour', unit: 'mL', value: doses.colour.mLPerL.aim * litres }]; // prettier-ignore
    case 'cream':
    case 'milk': {
      const dose = doses[step.set.ingredient];
      const id = step.set.ingredient === 'milk' ? 'milk-added' : 'cream';
      return dose === undefined ? [] : [{ ...base, id, unit: 'L', value: (dose.mLPerL.aim * litres) / 1000 }];
    }
    case 'acid':
      return acidAmounts(base, doses.acid, scaled);
    default:
      return step.verb === 'heatWithAcid' ? acidAmounts(base, doses.acid, scaled) : [];
  }
}

function acidAmounts(
  base: { readonly dependsOnCurd: boolean; readonly stepId: string },
  acid: Make['doses']['acid'],
  scaled: (range: { low: number; aim: number; high: number }, factor: number) => { value: number; low: number; high: number }, // prettier-ignore
): Amount[] {
  if (acid === undefined) return [];
  const gPerML = ACID_G_PER_ML[acid.kind];
  const grams = scaled(acid.gPerL, 1).value;
  const id = `acid-${acid.kind}`;
  return gPerML === null
    ? [{ ...base, id, unit: 'g', value: grams }]
    : [{ ...base, id, unit: 'mL', value: grams / gPerML, also: [{ unit: 'g', value: grams }] }];
}

/** Salt by the weight of the curd, told again once that is known. */
export function drySaltAmount(input: {
  readonly step: PlannedStep;
  readonly curdKg: { readonly low: number; readonly aim: number; readonly high: number };
}): Amount[] {
  // prettier-ignore
  const percent = input.step.set.saltPercent;
  if (typeof percent !== 'number') return [];
  const grams = (kg: number): number => 10 * percent * kg;
  const { low, aim, high } = input.curdKg;
  return [{ id: 'dry-salt', unit: 'g', value: grams(aim), low: grams(low), high: grams(high), dependsOnCurd: true, stepId: input.step.id }]; // prettier-ignore
}
