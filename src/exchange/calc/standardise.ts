import { z } from 'zod';
import { requireWithin } from '../../numbers/validity.ts';
import { additionKg, mixed, standardiseValidity } from '../../science/standardise.ts';
import { milkComposition, milkDensityKgPerM3 } from '../../science/milk.ts';
import { defineCalculator } from './calculator.ts';
import { underContractNames } from './fields.ts';

const percent = z.number().min(0).max(100);
const CASEIN_OF_PROTEIN = 0.78; // cow: 2.48/3.17 of 48 factories (Thom and Fisk 1918, The Book of Cheese, Table VI, seen)
const MILK_C = 15; // the temperature at which milk densities are tabled
const WITH_PROTEIN_PERCENT = { cream: null, skim: null, powder: 35 } as const; // skim milk powder 34 to 36 %, from memory
const POWDER_KG_PER_L = 0.6; // loose skim milk powder, from memory
const SNF_OF_PLASMA_PERCENT = 9.2; // fat-free solids in the fat-free part of cow's milk, common practice (no source)

/** Density of a liquid of this fat at 15 °C [kg/L]; the fat-free part is ordinary plasma. */
const densityKgPerL = (fatPercent: number, field: string): number =>
  underContractNames(
    { fatPercent: field },
    () =>
      milkDensityKgPerM3({
        fatPercent,
        solidsNotFatPercent: (SNF_OF_PLASMA_PERCENT * (100 - fatPercent)) / 100,
        temperatureC: MILK_C,
      }) / 1000,
  );

/** Refuses fat and casein that no milk, cream or powder has, under the names that the giver used. */
function requireStream(stream: { fatPercent: number; caseinPercent: number }, of: 'milk' | 'with'): void {
  underContractNames({ fatPercent: `${of}FatPercent`, caseinPercent: `${of}ProteinPercent` }, () =>
    requireWithin(standardiseValidity, { ...stream }),
  );
}

/** How much cream, skim milk or powder sets a milk to a fat or to a casein-to-fat. */
export const standardiseCalc = defineCalculator({
  name: 'standardise',
  answers: 'How much cream, skim milk or powder sets the milk to a fat, or to a casein for each part of fat',
  input: z
    .strictObject({
      milkL: z.number().positive().max(100_000),
      milkFatPercent: percent,
      milkProteinPercent: percent.optional(),
      targetFatPercent: percent.optional(),
      targetCaseinToFat: z.number().positive().max(20).optional(),
      with: z.enum(['cream', 'skim', 'powder']),
      withFatPercent: percent,
      withProteinPercent: percent.optional(),
    })
    .refine((given) => (given.targetFatPercent === undefined) !== (given.targetCaseinToFat === undefined), {
      path: ['targetFatPercent'],
      error: 'one of targetFatPercent or targetCaseinToFat',
    }),
  result: z.strictObject({
    addL: z.number(),
    addKg: z.number(),
    totalL: z.number(),
    fatPercent: z.number(),
    caseinToFat: z.number(),
  }),
  example: { milkL: 100, milkFatPercent: 4, targetFatPercent: 3.2, with: 'skim', withFatPercent: 0.1 },
  run(input) {
    const milkProtein =
      input.milkProteinPercent ??
      underContractNames(
        { fatPercent: 'milkFatPercent' },
        () => milkComposition({ species: 'cow', fatPercent: input.milkFatPercent }).proteinPercent,
      );
    const plasmaProtein = (100 * milkProtein) / (100 - input.milkFatPercent);
    const withProtein =
      input.withProteinPercent ??
      WITH_PROTEIN_PERCENT[input.with] ??
      (plasmaProtein * (100 - input.withFatPercent)) / 100;
    const milkKg = input.milkL * densityKgPerL(input.milkFatPercent, 'milkFatPercent');
    const milk = {
      massKg: milkKg,
      fatPercent: input.milkFatPercent,
      caseinPercent: CASEIN_OF_PROTEIN * milkProtein,
    };
    const addition = { fatPercent: input.withFatPercent, caseinPercent: CASEIN_OF_PROTEIN * withProtein };
    requireStream(milk, 'milk');
    requireStream(addition, 'with');
    const addKg = additionKg({
      milk,
      addition,
      ...(input.targetFatPercent === undefined ? {} : { targetFatPercent: input.targetFatPercent }),
      ...(input.targetCaseinToFat === undefined ? {} : { targetCaseinToFat: input.targetCaseinToFat }),
    });
    const after = mixed([milk, { ...addition, massKg: addKg }]);
    const addL =
      addKg / (input.with === 'powder' ? POWDER_KG_PER_L : densityKgPerL(input.withFatPercent, 'withFatPercent'));
    return {
      result: {
        addL,
        addKg,
        totalL: after.massKg / densityKgPerL(after.fatPercent, 'targetFatPercent'),
        fatPercent: after.fatPercent,
        caseinToFat: after.caseinPercent / Math.max(after.fatPercent, 1e-6),
      },
      cautions: [],
      assumptions: [
        ...(input.milkProteinPercent === undefined
          ? [`milkProteinPercent: ${milkProtein.toFixed(2)} (mean of cow milk, set right for the fat)`]
          : []),
        ...(input.withProteinPercent === undefined
          ? [
              `withProteinPercent: ${withProtein.toFixed(2)} (${input.with === 'powder' ? 'skim milk powder, from memory' : "the milk's own fat-free part"})`,
            ]
          : []),
        'casein is 0.78 of the protein; litres at 15 °C; masses are what balances',
      ],
      sources: [
        'mass balance',
        'Thom and Fisk 1918, The Book of Cheese, Table VI (casein share, seen)',
        'densities as the milk model',
      ],
    };
  },
});
