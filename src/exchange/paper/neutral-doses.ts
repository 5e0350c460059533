/** Doses of a make for so much milk, resting on nobody's packet and nobody's bottle: activity, shares of a label's own dose, grams. */
import type { Make } from '../../make/make.ts';
import { degrees, kilograms, litres, type Figured, type Told } from './step-words.ts';

/** A worked example stands beside the activity: a bottle of this strength, common practice (no source). */
export const EXAMPLE_RENNET_IMCU_PER_ML = 200;
/** Calcium chloride solution as it is mostly sold: common practice (no source). */
export const EXAMPLE_CALCIUM_PERCENT = 33;
/** Density of that solution, kg/L; from memory. */
const EXAMPLE_CALCIUM_KG_PER_L = 1.32;
const CURD_KG_PER_L = 0.12; // common practice (no source): where the make states no yield

/** Every dose of the make by its own data, as words; what a later language adds is told by the unit in its name. */
export function neutralDoses(input: {
  readonly make: Make;
  readonly volumeL: number;
  readonly told: Told;
}): readonly Figured[] {
  const { make } = input;
  return Object.entries(make.doses).flatMap(([name, dose]): Figured[] => {
    if (dose === undefined) return [];
    const value = DOSES[name]?.(input) ?? byUnit(dose, input);
    const kind = name !== 'culture' && 'kind' in dose && typeof dose.kind === 'string' ? dose.kind : null;
    const { say } = input.told;
    const culture = name === 'culture' ? make.doses.culture?.kind : undefined;
    const named = culture !== undefined ? say(`plan:cultureKinds.${culture}`) : kind === null ? say(`paper:dose.${name}`) : say(`paper:doseOf.${kind}`); // prettier-ignore
    return value === null ? [] : [{ name: named, value }];
  });
}

type Asked = Parameters<typeof neutralDoses>[0];

const DOSES: Readonly<Record<string, (asked: Asked) => string | null>> = {
  culture({ make, volumeL, told }) {
    const { culture } = make.doses;
    if (culture === undefined) return null;
    return told.say('paper:dose.share', {
      percent: told.write.number(culture.packetFraction.aim * 100, 0),
      bulk: litres(told, (culture.bulkPercent.aim / 100) * volumeL),
    });
  },
  rennet({ make, volumeL, told }) {
    const { rennet } = make.doses;
    if (rennet === undefined) return null;
    const imcu = rennet.imcuPerL.aim * volumeL;
    return told.say('paper:dose.imcu', {
      imcu: told.write.number(imcu, 0),
      example: litres(told, imcu / EXAMPLE_RENNET_IMCU_PER_ML / 1000),
      strength: EXAMPLE_RENNET_IMCU_PER_ML,
    });
  },
  calcium({ make, volumeL, told }) {
    const { calcium } = make.doses;
    if (calcium === undefined) return null;
    const grams = calcium.gPerL.value * volumeL;
    const ml = grams / ((EXAMPLE_CALCIUM_PERCENT / 100) * EXAMPLE_CALCIUM_KG_PER_L);
    return told.say('paper:dose.anhydrous', {
      grams: smallMass(told, grams),
      example: litres(told, ml / 1000),
      percent: EXAMPLE_CALCIUM_PERCENT,
    });
  },
};

/** From here on scales that show ounces tell a dose too; below it grams alone are weighed. Our own choice. */
const OUNCES_FROM_G = 20;

/** A dose by weight; both unit systems only where both can weigh it. */
const smallMass = (told: Told, massG: number): string =>
  massG < OUNCES_FROM_G ? told.write.grams(massG).text : kilograms(told, massG / 1000);

interface Scaled {
  /** Grams, or millilitres. */
  readonly per: 'g' | 'mL';
  readonly of: 'milk' | 'curd';
}

/** Units that a figure's name may end in. */
const SCALES: readonly (readonly [RegExp, Scaled])[] = [
  [/^g(\w*)PerL$|GPerL$/, { per: 'g', of: 'milk' }],
  [/^mL?(\w*)PerL$|MlPerL$/i, { per: 'mL', of: 'milk' }],
  [/^g(\w*)PerKg$|GPerKg(Curd)?$/, { per: 'g', of: 'curd' }],
];

/** A dose that is not known by name: its first figure of so much per litre of milk or kilogram of curd. */
function byUnit(dose: object, { make, volumeL, told }: Asked): string | null {
  for (const [name, figure] of Object.entries(dose)) {
    const scale = SCALES.find(([pattern]) => pattern.test(name))?.[1];
    const amount = figureOf(figure);
    if (scale === undefined || amount === null) continue;
    const curdKgPerL = make.aims.find(({ quantity }) => quantity === 'cheesePerMilkKgPerL')?.aim ?? CURD_KG_PER_L;
    const whole = amount * volumeL * (scale.of === 'milk' ? 1 : curdKgPerL);
    const text = scale.per === 'g' ? smallMass(told, whole) : litres(told, whole / 1000);
    return scale.of === 'milk' ? text : told.say('paper:dose.ofCurd', { amount: text });
  }
  return null;
}

/** The number of a figure, or the aim of a range. */
function figureOf(figure: unknown): number | null {
  if (typeof figure !== 'object' || figure === null) return null;
  if ('aim' in figure && typeof figure.aim === 'number') return figure.aim;
  return 'value' in figure && typeof figure.value === 'number' ? figure.value : null;
}

/** How the finished cheese is kept. */
export const keptAt = (make: Make, told: Told): string => degrees(told, make.shelfLife.keptAtC.value);
