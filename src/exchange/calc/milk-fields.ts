/** Milk as calculators take it: the species, and whatever is known. */
import { z } from 'zod';
import { MILK_SPECIES, milkComposition, type MilkComposition, type MilkInput } from '../../science/milk.ts';
import { underContractNames } from './fields.ts';

const percent = z.number().min(0).max(100);

/** Fields of a milk; `temperatureC` is for its density and specific heat only. */
export const milkFields = {
  species: z.enum(MILK_SPECIES),
  fatPercent: percent.optional(),
  proteinPercent: percent.optional().describe('as on the carton'),
  caseinPercent: percent.optional(),
  lactosePercent: percent.optional(),
  pH: z.number().min(0).max(14).optional(),
  temperatureC: z.number().min(-1).max(101).optional(),
};
export const milkSchema = z.strictObject(milkFields);
export type MilkFields = z.output<typeof milkSchema>;

/** What schemas call undefined, exact optional properties leave out. */
function known(milk: MilkFields): MilkInput {
  const { species, fatPercent, proteinPercent, caseinPercent, lactosePercent, pH } = milk;
  return {
    species,
    ...(fatPercent === undefined ? {} : { fatPercent }),
    ...(proteinPercent === undefined ? {} : { proteinPercent }),
    ...(caseinPercent === undefined ? {} : { caseinPercent }),
    ...(lactosePercent === undefined ? {} : { lactosePercent }),
    ...(pH === undefined ? {} : { pH }),
  };
}

/**
 * The composition of a milk, and a line for each figure that was assumed.
 * @throws InputError with the fields under `prefix` (`milk.` where the milk is a part of the input)
 */
export function milkOf(input: { milk: MilkFields; prefix: string }): {
  readonly composition: MilkComposition;
  readonly assumptions: string[];
} {
  const { milk, prefix } = input;
  const fields = ['fatPercent', 'proteinPercent', 'caseinPercent', 'lactosePercent', 'pH'] as const;
  const names = Object.fromEntries(fields.map((field) => [field, `${prefix}${field}`]));
  const composition = underContractNames(names, () => milkComposition(known(milk)));
  const assumptions = fields
    .filter((field) => milk[field] === undefined)
    .map((field) => `${prefix}${field}: ${composition[field].toFixed(2)} (${reason(field, milk)})`);
  return { composition, assumptions };
}

function reason(field: 'fatPercent' | 'proteinPercent' | 'caseinPercent' | 'lactosePercent' | 'pH', milk: MilkFields) {
  const mean = `mean of ${milk.species} milk`;
  if (field === 'caseinPercent' && milk.proteinPercent !== undefined) return 'from the protein';
  if (field === 'proteinPercent' && milk.caseinPercent !== undefined) return 'from the casein';
  const moves = field === 'proteinPercent' || field === 'caseinPercent' || field === 'lactosePercent';
  return moves && milk.fatPercent !== undefined ? `${mean}, set right for the fat` : mean;
}

/** Where the composition comes from. */
export const MILK_SOURCES = [
  'Mahmood and Usman (2010) Pakistan J. Nutrition 9:1192, composition of four milks, seen',
  'Thom and Fisk (1918) The Book of Cheese, casein of cow milk, seen; casein shares of the other milks from memory',
  'Fox and McSweeney (1998) Dairy Chemistry and Biochemistry p. 254, salts of cow milk, seen; of the others from memory',
];
