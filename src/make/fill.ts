/**
 * From "my kit and milk" to a setup without gaps: what the maker does not know is assumed and listed, never an error.
 */
import { InputError } from '../numbers/validity.ts';
import { readAnswers } from './answers.ts';
import type { Make } from './make.ts';
import { usualPot } from './pot.ts';
import type { Answers, Assumption, Setup } from './setup.ts';

const CP = 'common practice (no source)';

/** Fat of whole milk where nothing is said, %; cow milk takes the make's own aim. Mahmood & Usman 2010, Pakistan J. Nutrition 9:1192 (seen) */
const WHOLE_FAT_PERCENT = { goat: 3.97, sheep: 6.49, buffalo: 7.97 } as const;
const FAT_SOURCE = 'Mahmood & Usman 2010, Pakistan J. Nutrition 9:1192, means of one region (seen)';

const FRIDGE_C = 5; // common practice (no source)
const FRESH_WHEY_C = 32; // common practice (no source): whey of the same day's make, still warm
const ROOM_C = 20; // common practice (no source)
const THERMOMETER_ERROR_C = 1; // common practice (no source)
const CALCIUM_SOLUTION_PERCENT = 33; // common practice (no source): sold as 30-33 %
const RENNET_MONTHS = 3; // common practice (no source)
const WHEY_STARTER_PERCENT = 2; // common practice (no source): natural whey starter 2-3 %

/** Rennet where the label says nothing: what to reckon with, and the likely range. Liquid: common practice (no source); powder and tablet: from memory. */
export const UNKNOWN_RENNET = {
  liquid: { strength: 200, low: 100, high: 280, unit: 'IMCU/mL' }, // common practice (no source)
  powder: { strength: 2000, low: 1200, high: 2400, unit: 'IMCU/g' }, // from memory
  tablet: { strength: 1300, low: 700, high: 2200, unit: 'IMCU a tablet' }, // from memory
} as const;

/**
 * What one packet treats where nobody has read it [L]: packets for a kitchen, and those for the vat of a small dairy.
 * Never the milk at hand: a packet for ten litres in half a litre is twenty times the dose.
 */
const UNREAD_PACKET_L = {
  kitchen: { low: 4, typical: 10, high: 20 }, // common practice (no source)
  dairy: { low: 50, typical: 100, high: 250 }, // common practice (no source)
} as const;
const DAIRY_FROM_L = 50; // common practice (no source): from here on one buys packets for vats

/** A setup and what was filled in to get it, the most telling gap first. */
export interface Filled {
  readonly setup: Setup;
  readonly assumed: readonly Assumption[];
}

/**
 * Fills every gap in the maker's answers by the defaults of the make language.
 * @param input.make the make, for its own doses and fat
 * @param input.answers what the maker said; only `milk.volumeL` must be there
 * @returns the setup, and the assumptions with those first that widen the forecast most
 * @throws InputError with every impossible or doubtful answer: field, value, what would do. A doubtful one (bought milk
 *   at 37 °C, which is 2.8 °C if it was Fahrenheit) passes when its path stands in `answers.confirmed`.
 */
export function fillSetup(input: { readonly make: Make; readonly answers: Answers }): Filled {
  const read = readAnswers(input.answers);
  if ('problems' in read) throw new InputError(read.problems);
  const { make } = input;
  const { answers } = read;
  const gaps = new Gaps();
  const milk = fillMilk({ make, answers, gaps });
  const { pot, room, instruments } = answers;
  const usual = usualPot({
    milkL: milk.volumeL,
    ...(pot?.volumeL === undefined ? {} : { volumeL: pot.volumeL }),
  });
  const setup: Setup = {
    milk,
    culture: fillCulture({ make, answers, gaps }),
    rennet: fillRennet({ make, answers, gaps }),
    calcium: {
      has: gaps.fill(answers.calcium?.has, {
        field: 'calcium.has',
        value: wantsCalcium({ make, treatment: milk.treatment }),
        widens: 'little',
        source: CP,
      }),
      solutionPercent: answers.calcium?.solutionPercent ?? CALCIUM_SOLUTION_PERCENT,
    },
    pot: {
      name: pot?.name ?? 'pot',
      volumeL: gaps.fill(pot?.volumeL, { field: 'pot.volumeL', value: usual.volumeL, unit: 'L', widens: 'some', source: CP }),
      insideMm: pot?.insideMm ?? usual.insideMm,
      massKg: pot?.massKg ?? usual.massKg,
      burner: gaps.fill(pot?.burner, { field: 'pot.burner', value: 'medium', widens: 'little', source: CP }),
      keptWarm: gaps.fill(pot?.keptWarm, { field: 'pot.keptWarm', value: 'lid', widens: 'some', source: CP }),
      ...(pot?.heaterW === undefined ? {} : { heaterW: pot.heaterW }),
      ...(pot?.lossWPerK === undefined ? {} : { lossWPerK: pot.lossWPerK }),
    }, // prettier-ignore
    roomC: gaps.fill(room?.temperatureC, { field: 'room.temperatureC', value: ROOM_C, unit: '°C', widens: 'little', source: CP }), // prettier-ignore
    pHMeter: gaps.fill(instruments?.pHMeter, { field: 'instruments.pHMeter', value: false, widens: 'some', source: CP }), // prettier-ignore
    scale: instruments?.scale ?? true,
    thermometerErrorC: gaps.fill(instruments?.thermometerErrorC, { field: 'instruments.thermometerErrorC', value: THERMOMETER_ERROR_C, unit: '°C', widens: 'little', source: CP }), // prettier-ignore
    units: answers.units ?? 'metric',
    forSale: answers.forSale ?? false,
    children: answers.children ?? false,
    ...(answers.pieceG === undefined ? {} : { pieceG: answers.pieceG }),
  };
  return { setup, assumed: gaps.listed() };
}

/** Collects what had to be assumed. */
class Gaps {
  readonly #found: Assumption[] = [];

  /** The answer where there is one, else the assumption, which is then listed. */
  fill<V extends string | number | boolean>(given: V | undefined, gap: Assumption & { readonly value: NoInfer<V> }): V {
    if (given !== undefined) return given;
    this.#found.push(gap);
    return gap.value;
  }

  listed(): readonly Assumption[] {
    const rank = { much: 0, some: 1, little: 2 };
    return [...this.#found].sort((a, b) => rank[a.widens] - rank[b.widens]);
  }
}

interface Filling {
  readonly make: Make;
  readonly answers: Answers;
  readonly gaps: Gaps;
}

function fillMilk({ make, answers, gaps }: Filling): Setup['milk'] {
  const { milk } = answers;
  const species = gaps.fill(milk.species, { field: 'milk.species', value: make.milk.species[0] ?? 'cow', widens: 'some', source: CP }); // prettier-ignore
  const wholeFat = species === 'cow' ? make.milk.fatPercent.aim : WHOLE_FAT_PERCENT[species];
  return {
    volumeL: milk.volumeL,
    species,
    fatPercent: gaps.fill(milk.fatPercent, {
      field: 'milk.fatPercent',
      value: wholeFat,
      unit: '%',
      widens: 'some',
      source: species === 'cow' ? CP : FAT_SOURCE,
    }),
    treatment: gaps.fill(milk.treatment, { field: 'milk.treatment', value: 'pasteurised', widens: 'some', source: CP }),
    homogenised: gaps.fill(milk.homogenised, { field: 'milk.homogenised', value: false, widens: 'little', source: CP }),
    temperatureC: gaps.fill(milk.temperatureC, { field: 'milk.temperatureC', value: make.milk.fill === 'whey' ? FRESH_WHEY_C : FRIDGE_C, unit: '°C', widens: 'little', source: CP }), // prettier-ignore
    ...(milk.proteinPercent === undefined ? {} : { proteinPercent: milk.proteinPercent }),
    ...(milk.pH === undefined ? {} : { pH: milk.pH }),
  };
}

function fillCulture({ make, answers, gaps }: Filling): Setup['culture'] {
  const said = answers.culture;
  const dose = make.doses.culture;
  if (dose === undefined) return { form: 'freeze-dried', packetTreatsL: UNREAD_PACKET_L.kitchen.typical, packetFraction: 0, measuredBy: 'packet', batchesWithLot: 0 }; // prettier-ignore
  const form = gaps.fill(said?.form, { field: 'culture.form', value: 'freeze-dried', widens: 'some', source: CP });
  const poured = form === 'bulk' || form === 'whey';
  const usualPercent = form === 'whey' ? WHEY_STARTER_PERCENT : dose.bulkPercent.aim;
  const common = UNREAD_PACKET_L[answers.milk.volumeL < DAIRY_FROM_L ? 'kitchen' : 'dairy'];
  const packet: Assumption & { readonly value: number } = {
    field: 'culture.packetTreatsL',
    value: common.typical,
    unit: 'L',
    widens: 'much',
    source: CP,
  };
  return {
    form,
    packetTreatsL: poured ? (said?.packetTreatsL ?? packet.value) : gaps.fill(said?.packetTreatsL, packet),
    ...(poured || said?.packetTreatsL !== undefined ? {} : { unreadPacketL: { low: common.low, high: common.high } }),
    packetFraction: said?.packetFraction ?? dose.packetFraction.aim,
    measuredBy: said?.measuredBy ?? 'packet',
    batchesWithLot: gaps.fill(said?.batchesWithLot, { field: 'culture.batchesWithLot', value: 0, widens: 'some', source: CP }), // prettier-ignore
    ...(said?.packetMassG === undefined ? {} : { packetMassG: said.packetMassG }),
    ...(poured
      ? { bulkPercent: gaps.fill(said?.bulkPercent, { field: 'culture.bulkPercent', value: usualPercent, unit: '%', widens: 'some', source: CP }) } // prettier-ignore
      : {}),
  };
}

function fillRennet({ make, answers, gaps }: Filling): Setup['rennet'] {
  const said = answers.rennet;
  const form = said?.form ?? 'liquid';
  const unknown = UNKNOWN_RENNET[form];
  const strength = said?.strengthImcuPerMl;
  const span = said?.testedSpanImcuPerMl;
  const gap = { field: 'rennet.strengthImcuPerMl', unit: unknown.unit };
  if (make.doses.rennet === undefined) {
    // Nothing is asked of a bottle that stays shut.
  } else if (strength === undefined) gaps.fill(undefined, { ...gap, value: unknown.strength, widens: 'some', source: CP });
  else if (span !== undefined) gaps.fill(undefined, { ...gap, value: strength, span, widens: 'little', source: 'a cup test of this bottle' }); // prettier-ignore
  return {
    form,
    monthsStored: said?.monthsStored ?? (span === undefined ? RENNET_MONTHS : 0),
    ...(said?.strengthImcuPerMl === undefined ? {} : { strengthImcuPerMl: said.strengthImcuPerMl }),
    ...(said?.testedSpanImcuPerMl === undefined ? {} : { testedSpanImcuPerMl: said.testedSpanImcuPerMl }),
    ...(said?.dropsPerMl === undefined ? {} : { dropsPerMl: said.dropsPerMl }),
  };
}

/** True where the make gives calcium to milk treated like this. */
export function wantsCalcium(input: { readonly make: Make; readonly treatment: Setup['milk']['treatment'] }): boolean {
  return input.make.doses.calcium?.whenTreatments.includes(input.treatment) ?? false;
}
