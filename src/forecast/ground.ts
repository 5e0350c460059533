import type { Make } from '../make/make.ts';
import type { Plan } from '../make/plan.ts';
import { acidGPerMol, type DirectAcid } from '../science/buffer-acid.ts';
import { bufferTable, type BufferTable } from '../science/buffer.ts';
import { initialCellsKernel } from '../science/culture.ts';
import {
  milkComposition,
  milkDensityKgPerM3,
  milkSpecificHeatKJPerKgK,
  type MilkComposition,
} from '../science/milk.ts';
import { potFor, potHeatCapacityKJPerK, type Pot } from '../science/pot.ts';
import { lossCurve, scaledLoss, type LossCurve } from '../science/vat.ts';
import { creamKernel, kgPerL, mixedKernel, sweetWheyKernel } from '../science/whey.ts';

/** What all members of one plan share, worked out once. */
export interface Ground {
  readonly plan: Plan;
  readonly milk: MilkComposition;
  readonly milkKg: number;
  readonly densityKgPerL: number;
  readonly buffer: BufferTable;
  readonly pot: Pot;
  /** Full vat under its own keeping; open while it is worked; drained curd alone in the pot. */
  readonly lossKept: LossCurve;
  readonly lossOpen: LossCurve;
  readonly lossDrained: LossCurve;
  readonly potKJPerK: number;
  readonly milkKJPerK: number;
  readonly cubeMm: number;
  /** The pot in a bath of cold water. */
  readonly lossBath: LossCurve;
  readonly acid: PlannedAcid | null;
  readonly dressing: Dressing | null;
  readonly isWhey: boolean;
  readonly isStretched: boolean;
  readonly isHeatCurdled: boolean;
  readonly rennetImcuPerL: number;
  readonly calciumGPerL: number;
  /** Base of the packet or starter before this batch's own activity [CFU/L]. */
  readonly cellsPerL: number;
}

/** Acid as it is weighed: which one does the work, how much of it is that, how much is water. */
const ACIDS: Readonly<
  Record<NonNullable<Make['doses']['acid']>['kind'], { acid: DirectAcid; share: number; water: number }>
> = {
  citric: { acid: 'citric-monohydrate', share: 1, water: 0 },
  vinegar: { acid: 'acetic', share: 0.05, water: 0.95 }, // 5 % acid, as most labels say
  lemon: { acid: 'citric', share: 0.05, water: 0.91 }, // 4 to 6 %, common practice (no source)
  lactic: { acid: 'lactic', share: 0.8, water: 0.2 }, // sold as 80 to 88 %, common practice (no source)
};

/** The acid of a make, for each litre of what is in the pot. */
export interface PlannedAcid {
  readonly acid: DirectAcid;
  readonly mmolPerL: number;
  readonly waterKgPerL: number;
}

function acidOf(make: Make): PlannedAcid | null {
  const dose = make.doses.acid;
  if (dose === undefined) return null;
  const { acid, share, water } = ACIDS[dose.kind];
  return {
    acid,
    mmolPerL: (1000 * share * dose.gPerL.aim) / acidGPerMol(acid),
    waterKgPerL: (water * dose.gPerL.aim) / 1000,
  };
}

/**
 * What is in the pot: the milk or its whey, and the cream or milk that goes in before it sets, counted from the start (it is in
 * before anything depends on it but the warming).
 */
function fillOf(plan: Plan, milk: MilkComposition): { fill: MilkComposition; litres: number } {
  const { make, setup, steps } = plan;
  let fill = make.milk.fill === 'whey' ? sweetWheyKernel(milk) : milk;
  if (setup.milk.pH !== undefined) fill = { ...fill, pH: setup.milk.pH };
  let litres = setup.milk.volumeL;
  for (const step of steps) {
    if (LEAVES_WHEY.has(step.verb)) break;
    const { ingredient } = step.set;
    const dose = ingredient === 'cream' ? make.doses.cream : ingredient === 'milk' ? make.doses.milk : undefined;
    if (dose === undefined) continue;
    const poured = { milk: creamKernel(milk, dose.fatPercent.value), litres: (dose.mLPerL.aim * setup.milk.volumeL) / 1000 }; // prettier-ignore
    fill = mixedKernel({ milk: fill, litres }, poured);
    litres += poured.litres;
  }
  return { fill, litres };
}

/** From here on what is poured goes onto curd. */
const LEAVES_WHEY: ReadonlySet<string> = new Set(['drain', 'scoop']);

/** What goes onto the drained curd and stays with it (a dressing): its milk and mass. */
export interface Dressing {
  readonly milk: MilkComposition;
  readonly kg: number;
}

function dressingOf(plan: Plan, milk: MilkComposition): Dressing | null {
  const { make, setup, steps } = plan;
  const from = steps.findIndex((step) => LEAVES_WHEY.has(step.verb));
  const step = from < 0 ? undefined : steps.slice(from).find(({ set }) => set.ingredient === 'cream' || set.ingredient === 'milk'); // prettier-ignore
  const dose = step?.set.ingredient === 'cream' ? make.doses.cream : make.doses.milk;
  if (step === undefined || dose === undefined) return null;
  const cream = creamKernel(milk, dose.fatPercent.value);
  return { milk: cream, kg: (kgPerL(cream) * dose.mLPerL.aim * setup.milk.volumeL) / 1000 };
}

const BATH_OVER_OPEN = 8; // a pot in a sink of moving cold water against one in air: about 150 W/(m2 K) on the wall, our own estimate
const SCOOP_MM = 60; // a ladle of curd; common practice (no source)

/** What every member shares. */
export function groundOf(plan: Plan): Ground {
  const { setup, make } = plan;
  const isWhey = make.milk.fill === 'whey';
  const ofSpecies = milkComposition({
    species: setup.milk.species,
    fatPercent: setup.milk.fatPercent,
    ...(setup.milk.proteinPercent === undefined ? {} : { proteinPercent: setup.milk.proteinPercent }),
    ...(setup.milk.pH === undefined || isWhey ? {} : { pH: setup.milk.pH }),
  });
  const { fill: milk, litres } = fillOf(plan, ofSpecies);
  const densityKgPerL =
    milkDensityKgPerM3({
      fatPercent: milk.fatPercent,
      solidsNotFatPercent: milk.solidsNotFatPercent,
      temperatureC: 20,
    }) / 1000;
  const milkKg = litres * densityKgPerL;
  const pot = potFor({ capacityL: setup.pot.volumeL, insideMm: setup.pot.insideMm, massKg: setup.pot.massKg });
  const volumeL = litres;
  const roomC = setup.roomC;
  const keeping = setup.pot.keptWarm;
  // What a pot was found to lose is found on the burner, open or under its lid; it says as much of every other way.
  const asFound = lossCurve({ pot, volumeL, roomC, keeping: keeping === 'open' ? 'open' : 'lid' });
  const learned = (setup.pot.lossWPerK ?? asFound.atBodyWPerK) / asFound.atBodyWPerK;
  const cooled = (litres: number, how: typeof keeping): LossCurve =>
    scaledLoss(lossCurve({ pot, volumeL: litres, roomC, keeping: how }), learned);
  const cut = plan.steps.find((step) => step.verb === 'cut')?.set.cubeMm;
  const scoop = plan.steps.find((step) => step.verb === 'scoop');
  const calcium = make.doses.calcium;
  const takesCalcium =
    calcium !== undefined && setup.calcium.has && calcium.whenTreatments.includes(setup.milk.treatment);
  const { culture } = setup;
  return {
    plan,
    milk,
    milkKg,
    densityKgPerL,
    buffer: bufferTable(milk),
    pot,
    lossKept: cooled(volumeL, keeping),
    lossOpen: cooled(volumeL, 'open'),
    lossDrained: cooled(Math.max(0.5, 0.2 * volumeL), keeping),
    potKJPerK: potHeatCapacityKJPerK(pot),
    milkKJPerK: milkKg * milkSpecificHeatKJPerKgK({ composition: milk, temperatureC: 37 }),
    cubeMm:
      typeof cut === 'number'
        ? cut
        : scoop === undefined
          ? 12
          : typeof scoop.set.cubeMm === 'number'
            ? scoop.set.cubeMm
            : SCOOP_MM,
    lossBath: scaledLoss(cooled(volumeL, 'open'), BATH_OVER_OPEN),
    acid: acidOf(make),
    dressing: dressingOf(plan, ofSpecies),
    isWhey,
    isHeatCurdled: plan.steps.some((step) => step.verb === 'heatWithAcid'),
    isStretched: plan.steps.some((step) => step.verb === 'stretch'),
    rennetImcuPerL: make.doses.rennet?.imcuPerL.aim ?? 0,
    calciumGPerL: takesCalcium ? calcium.gPerL.value : 0,
    cellsPerL: initialCellsKernel(
      culture.bulkPercent === undefined
        ? { packetFraction: culture.packetFraction }
        : { percentBulk: culture.bulkPercent },
    ),
  };
}
