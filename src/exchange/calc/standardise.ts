import { z } from 'zod';
import { InputError, requireWithin } from '../../numbers/validity.ts';
import type { Finding } from '../../science/finding.ts';
import { MILK_SPECIES, milkComposition, milkDensityKgPerM3 } from '../../science/milk.ts';
import {
  additionKg,
  mixed,
  type StandardMilk,
  standardiseValidity,
  type Stream,
  twoAdditionsKg,
} from '../../science/standardise.ts';
import { defineCalculator } from './calculator.ts';
import { underContractNames } from './fields.ts';

const percent = z.number().min(0).max(100);
const kind = z.enum(['cream', 'skim', 'powder']);
type Kind = z.output<typeof kind>;

const MILK_C = 15; // the temperature at which milk densities are tabled
const POWDER_PROTEIN_PERCENT = 35; // skim milk powder 34 to 36 %, from memory
const POWDER_WATER_PERCENT = 4; // from memory
const POWDER_KG_PER_L = 0.6; // loose skim milk powder, from memory
const SNF_OF_PLASMA_PERCENT = 9.2; // fat-free solids in the fat-free part of milk, common practice (no source)
const MOST_SKIM_SOLIDS_PERCENT = 11; // in the vat milk: university page on standardising with powder, seen
const BALANCE_FAT_PERCENT = 1e-6; // below this casein to fat has no meaning

/** One thing in the vat: what balances, and what it measures. */
interface Part extends Stream {
  readonly solidsNotFatPercent: number;
  readonly kgPerL: number;
}

const liquid = (input: Stream & { readonly field: string }): Part => {
  const { fatPercent, caseinPercent, field } = input;
  const solidsNotFatPercent = (SNF_OF_PLASMA_PERCENT * (100 - fatPercent)) / 100;
  const kgPerM3 = underContractNames({ fatPercent: field }, () =>
    milkDensityKgPerM3({ fatPercent, solidsNotFatPercent, temperatureC: MILK_C }),
  );
  return { fatPercent, caseinPercent, solidsNotFatPercent, kgPerL: kgPerM3 / 1000 };
};

/** How much cream, skim milk or powder sets a milk to a fat, to a casein-to-fat, or with a second addition to both. */
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
      with: kind,
      withFatPercent: percent,
      withProteinPercent: percent.optional(),
      alsoWith: kind.optional().describe('a second addition, for both targets at once'),
      alsoWithFatPercent: percent.optional(),
      alsoWithProteinPercent: percent.optional(),
      species: z.enum(MILK_SPECIES).default('cow'),
    })
    .refine(
      (given) =>
        given.alsoWith === undefined
          ? (given.targetFatPercent === undefined) !== (given.targetCaseinToFat === undefined)
          : given.targetFatPercent !== undefined && given.targetCaseinToFat !== undefined,
      {
        path: ['targetFatPercent'],
        error: 'one of targetFatPercent or targetCaseinToFat; both only with a second addition in alsoWith',
      },
    )
    .refine((given) => (given.alsoWith === undefined) === (given.alsoWithFatPercent === undefined), {
      path: ['alsoWithFatPercent'],
      error: 'alsoWith and alsoWithFatPercent together, or neither',
    }),
  result: z.strictObject({
    addL: z.number(),
    addKg: z.number(),
    totalL: z.number(),
    fatPercent: z.number(),
    caseinToFat: z.number(),
    alsoAddL: z.number().optional(),
    alsoAddKg: z.number().optional(),
  }),
  example: { milkL: 100, milkFatPercent: 4, targetFatPercent: 3.2, with: 'skim', withFatPercent: 0.1 },
  run(input) {
    const { species, milkFatPercent, targetFatPercent, targetCaseinToFat } = input;
    const whole = underContractNames({ fatPercent: 'milkFatPercent', proteinPercent: 'milkProteinPercent' }, () =>
      milkComposition({
        species,
        fatPercent: milkFatPercent,
        ...(input.milkProteinPercent === undefined ? {} : { proteinPercent: input.milkProteinPercent }),
      }),
    );
    const caseinShare = whole.caseinPercent / whole.proteinPercent;
    const plasmaProtein = (100 * whole.proteinPercent) / (100 - milkFatPercent);
    const proteinOf = (given: number | undefined, what: Kind, fat: number): number =>
      given ?? (what === 'powder' ? POWDER_PROTEIN_PERCENT : (plasmaProtein * (100 - fat)) / 100);
    const milk = { ...liquid({ ...whole, field: 'milkFatPercent' }), fatPercent: milkFatPercent };
    const milkKg = input.milkL * milk.kgPerL;
    const first = {
      what: input.with,
      fatPercent: input.withFatPercent,
      proteinPercent: proteinOf(input.withProteinPercent, input.with, input.withFatPercent),
      field: 'with',
    };
    const second =
      input.alsoWith === undefined || input.alsoWithFatPercent === undefined
        ? null
        : {
            what: input.alsoWith,
            fatPercent: input.alsoWithFatPercent,
            proteinPercent: proteinOf(input.alsoWithProteinPercent, input.alsoWith, input.alsoWithFatPercent),
            field: 'alsoWith',
          };
    const additions = [first, ...(second === null ? [] : [second])];
    const parts = additions.map((each) => partOf({ ...each, caseinShare }));
    const [one, two] = parts;
    if (one === undefined) throw new RangeError('an addition without a part');
    const base: StandardMilk = { massKg: milkKg, ...milk };
    const amountsKg =
      two === undefined
        ? [
            additionKg({
              milk: base,
              addition: one,
              ...(targetFatPercent === undefined ? {} : { targetFatPercent }),
              ...(targetCaseinToFat === undefined ? {} : { targetCaseinToFat }),
            }),
          ]
        : twoAdditionsKg({
            milk: base,
            additions: [one, two],
            targetFatPercent: targetFatPercent ?? 0,
            targetCaseinToFat: targetCaseinToFat ?? 0,
          });
    const added = parts.map((part, i) => ({ ...part, massKg: amountsKg[i] ?? 0 }));
    const after = mixed([base, ...added]);
    const solidsPercent =
      [{ ...milk, massKg: milkKg }, ...added].reduce((sum, each) => sum + each.massKg * each.solidsNotFatPercent, 0) /
      after.massKg;
    const [firstKg = 0, secondKg = 0] = amountsKg;
    return {
      result: {
        addL: firstKg / one.kgPerL,
        addKg: firstKg,
        totalL: (1000 * after.massKg) / densityAfter({ ...after, solidsPercent }),
        fatPercent: after.fatPercent,
        caseinToFat: after.caseinPercent / Math.max(after.fatPercent, BALANCE_FAT_PERCENT),
        ...(two === undefined ? {} : { alsoAddL: secondKg / two.kgPerL, alsoAddKg: secondKg }),
      },
      cautions: solidsRemark(additions.some(({ what }) => what === 'powder') ? solidsPercent : 0),
      assumptions: [
        `species: ${species}, casein ${caseinShare.toFixed(2)} of the protein`,
        ...(input.milkProteinPercent === undefined
          ? [`milkProteinPercent: ${whole.proteinPercent.toFixed(2)} (mean of ${species} milk, set right for the fat)`]
          : []),
        ...(input.withProteinPercent === undefined ? [proteinText('withProteinPercent', first)] : []),
        ...(second !== null && input.alsoWithProteinPercent === undefined
          ? [proteinText('alsoWithProteinPercent', second)]
          : []),
        'masses are what balances; volumes at 15 °C, of powder as it lies loose',
      ],
      sources: [
        second === null ? 'mass balance' : 'two mass balances solved together, never one square after another',
        'Thom and Fisk 1918, The Book of Cheese, Table VI (casein share, seen)',
        'densities as the milk model; skim milk powder from memory',
      ],
    };
  },
});

function partOf(input: {
  what: Kind;
  fatPercent: number;
  proteinPercent: number;
  caseinShare: number;
  field: string;
}): Part {
  const { what, fatPercent, field } = input;
  const caseinPercent = input.caseinShare * input.proteinPercent;
  underContractNames({ fatPercent: `${field}FatPercent`, caseinPercent: `${field}ProteinPercent` }, () =>
    requireWithin(standardiseValidity, { fatPercent, caseinPercent }),
  );
  if (what !== 'powder') return liquid({ fatPercent, caseinPercent, field: `${field}FatPercent` });
  const solidsNotFatPercent = 100 - POWDER_WATER_PERCENT - fatPercent;
  if (input.proteinPercent > solidsNotFatPercent) {
    throw new InputError([
      {
        code: 'contradiction',
        field: `${field}ProteinPercent`,
        value: input.proteinPercent,
        unit: '%',
        expected: `at most ${solidsNotFatPercent} % beside ${fatPercent} % of fat and ${POWDER_WATER_PERCENT} % of water`,
        remedy: 'Read both from the bag.',
      },
    ]);
  }
  return { fatPercent, caseinPercent, solidsNotFatPercent, kgPerL: POWDER_KG_PER_L };
}

/** Density of what is in the vat [kg/m3]: by its own solids, so that dissolved powder makes it heavier. */
const densityAfter = (vat: { fatPercent: number; solidsPercent: number }): number =>
  underContractNames({ fatPercent: 'targetFatPercent', solidsNotFatPercent: 'targetCaseinToFat' }, () =>
    milkDensityKgPerM3({ fatPercent: vat.fatPercent, solidsNotFatPercent: vat.solidsPercent, temperatureC: MILK_C }),
  );

const proteinText = (field: string, addition: { what: Kind; proteinPercent: number }): string =>
  `${field}: ${addition.proteinPercent.toFixed(2)} (${addition.what === 'powder' ? 'skim milk powder, from memory' : "the milk's own fat-free part"})`;

const solidsRemark = (solidsPercent: number): Finding[] =>
  solidsPercent > MOST_SKIM_SOLIDS_PERCENT
    ? [
        {
          severity: 'caution',
          code: 'standardise-solids',
          fields: { solidsPercent, mostPercent: MOST_SKIM_SOLIDS_PERCENT },
          source: 'university page on standardising: skim solids of vat milk at most 11 %, seen',
        },
      ]
    : [];
