import { z } from 'zod';
import {
  BULK_DENSITIES,
  type BulkDensity,
  DROPS_PER_ML,
  kitchenIngredients,
  SPOON_REGIONS,
  type SpoonName,
  SPOON_NAMES,
  type SpoonRegion,
  spoonVolume,
} from '../../make/kitchen-measures.ts';
import { convert, isUnitName, sameDimension, type UnitName, unitNames, UNITS } from '../../numbers/units.ts';
import { InputError } from '../../numbers/validity.ts';
import type { Finding } from '../../science/finding.ts';
import { remark } from '../../science/remarks.ts';
import { defineCalculator } from './calculator.ts';

type SpoonMeasureName = `${SpoonRegion}-${SpoonName}`;

/** `units.ts` has this spoon as `australian-tablespoon`; one name is enough. */
const SAME_SPOON = 'australia-tablespoon';
/** Spoons that `units.ts` does not have yet, by region: `us-pinch`, `australia-teaspoon`, … */
const SPOONS: ReadonlyMap<string, { readonly volumeML: number; readonly handPercent: number }> = new Map(
  SPOON_REGIONS.flatMap((region) =>
    SPOON_NAMES.map((spoon): [SpoonMeasureName, { volumeML: number; handPercent: number }] => [
      `${region}-${spoon}`,
      spoonVolume({ spoon, region }),
    ]),
  ).filter(([name]) => !isUnitName(name) && name !== SAME_SPOON),
);

const MEASURES: readonly string[] = [...unitNames, ...SPOONS.keys(), 'drop'];
const measureSchema = z.enum(MEASURES);

const UNCERTAIN_PERCENT = 15; // our own choice: from here on a spoon's answer carries a caution

/** A measure as litres, kilograms or what else it is in, and how surely. */
interface Known {
  readonly value: number;
  readonly unit: UnitName;
  readonly errorPercent: number;
}

function known(input: { value: number; name: string }): Known {
  const spoon = SPOONS.get(input.name);
  if (spoon !== undefined) return { value: input.value * spoon.volumeML, unit: 'mL', errorPercent: spoon.handPercent };
  if (input.name === 'drop') {
    const spread = (50 * (DROPS_PER_ML.high - DROPS_PER_ML.low)) / DROPS_PER_ML.typical;
    return { value: input.value / DROPS_PER_ML.typical, unit: 'mL', errorPercent: spread };
  }
  return { value: input.value, unit: isUnitName(input.name) ? input.name : 'mL', errorPercent: 0 };
}

const isMass = (unit: UnitName): boolean => UNITS[unit].dimension === 'mass';
const isVolume = (unit: UnitName): boolean => UNITS[unit].dimension === 'volume';

/** Any unit into any other; a volume into a mass by what the ingredient weighs in a spoon. */
export const measureCalc = defineCalculator({
  name: 'measure',
  answers: 'What an amount is in another unit: litres, gallons, spoons, drops, grams, °F',
  input: z.strictObject({
    value: z.number(),
    from: measureSchema,
    to: measureSchema,
    ingredient: z.enum(kitchenIngredients).optional(),
  }),
  result: z.strictObject({
    value: z.number(),
    exact: z.boolean(),
    span: z.strictObject({ low: z.number(), high: z.number() }).nullable(),
  }),
  example: { value: 2, from: 'us-teaspoon', to: 'g', ingredient: 'table-salt' },
  run({ value, from, to, ingredient }) {
    const source = known({ value, name: from });
    const target = known({ value: 1, name: to });
    const needsDensity =
      (isMass(source.unit) && isVolume(target.unit)) || (isVolume(source.unit) && isMass(target.unit));
    if (!sameDimension({ from: source.unit, to: target.unit }) && !needsDensity)
      throw new InputError([incomparable({ from, to })]);
    if (needsDensity && ingredient === undefined) throw new InputError([needsIngredient()]);
    const density: BulkDensity | null = needsDensity && ingredient !== undefined ? BULK_DENSITIES[ingredient] : null;
    const at = (gPerML: number): number => {
      const inTarget = isMass(source.unit)
        ? { value: convert({ value: source.value, from: source.unit, to: 'g' }) / gPerML, unit: 'mL' as const }
        : { value: convert({ value: source.value, from: source.unit, to: 'mL' }) * gPerML, unit: 'g' as const };
      return convert({ value: inTarget.value, from: inTarget.unit, to: target.unit }) / target.value;
    };
    const answer =
      density === null
        ? convert({ value: source.value, from: source.unit, to: target.unit }) / target.value
        : at(density.typical);
    const packing = density === null ? 0 : (50 * (density.high - density.low)) / density.typical;
    const errorPercent = Math.hypot(packing, source.errorPercent, target.errorPercent);
    const half = (Math.abs(answer) * errorPercent) / 100;
    const exact = errorPercent === 0;
    const cautions: Finding[] =
      errorPercent > UNCERTAIN_PERCENT ? [remark({ code: 'spoon-uncertain', fields: { errorPercent } })] : [];
    return {
      result: { value: answer, exact, span: exact ? null : { low: answer - half, high: answer + half } },
      cautions,
      assumptions: [
        ...(density === null
          ? []
          : [`${ingredient ?? ''}: ${density.typical} g in a level mL (${density.low} to ${density.high})`]),
        ...(from === 'drop' || to === 'drop'
          ? ['20 drops in a mL, give or take 10, until this bottle is counted']
          : []),
        ...(SPOONS.has(from) || SPOONS.has(to) ? ['a level spoon, by hand'] : []),
      ],
      sources: density === null ? ['definitions of the units, from memory'] : [density.source],
    };
  },
});

function incomparable(input: { from: string; to: string }): InputError['problems'][number] {
  return {
    code: 'contradiction',
    field: 'to',
    value: input.to,
    expected: `a unit of the same kind as ${input.from}`,
    remedy: 'Choose two units of one kind, or a volume and a mass with an ingredient.',
  };
}

function needsIngredient(): InputError['problems'][number] {
  return {
    code: 'missing',
    field: 'ingredient',
    value: undefined,
    expected: kitchenIngredients.join(', '),
    remedy: 'A spoon of salt and a spoon of culture do not weigh the same: say what it is.',
  };
}
