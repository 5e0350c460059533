import { ACID_STATE } from '../src/science/acidification.ts';
import { drainWhey, splitAtCutting, startAcid, washWhey } from '../src/science/acidification-events.ts';
import type { Stirring } from '../src/science/syneresis.ts';
import { advance } from '../src/forecast/advance.ts';
import { curdKgOf } from '../src/forecast/contents.ts';
import type { Inputs } from '../src/forecast/inputs.ts';
import { nextStepMin } from '../src/forecast/step-length.ts';
import { curdPHOf, resetVat, type Vat } from '../src/forecast/vat-state.ts';

/**
 * A make of six and a half hours by the clock, so that every integrator is given the same stretches: the vat's own equations
 * (heat, whey, souring, clotting), no end to be found, no trace, no cheese. What is held warm is looked at every twenty
 * minutes and set back to its temperature, as in the forecast.
 */
interface Stretch {
  readonly endMin: number;
  readonly stirring: Stirring;
  readonly loss: 'lossKept' | 'lossOpen' | 'lossDrained';
  readonly holdC?: number;
  /** Heat evenly to this by the end. */
  readonly toC?: number;
  readonly begin?: (vat: Vat) => void;
}

const LOOK_EVERY_MIN = 20;

const STRETCHES: readonly Stretch[] = [
  { endMin: 30, stirring: 'still', loss: 'lossKept', toC: 37 },
  { endMin: 34, stirring: 'still', loss: 'lossKept', begin: addCulture },
  { endMin: 82, stirring: 'still', loss: 'lossKept', holdC: 37 },
  { endMin: 84, stirring: 'still', loss: 'lossKept' },
  { endMin: 118, stirring: 'still', loss: 'lossKept', begin: (vat) => (vat.rennetMin = vat.minute) },
  { endMin: 126, stirring: 'still', loss: 'lossOpen', begin: cut },
  { endMin: 133, stirring: 'still', loss: 'lossKept' },
  { endMin: 158, stirring: 'gentle', loss: 'lossKept', holdC: 38 },
  { endMin: 163, stirring: 'still', loss: 'lossKept' },
  { endMin: 169, stirring: 'still', loss: 'lossOpen', begin: drawWhey },
  { endMin: 177, stirring: 'still', loss: 'lossOpen', begin: pourHotWater },
  { endMin: 187, stirring: 'gentle', loss: 'lossKept', holdC: 40.5 },
  { endMin: 230, stirring: 'still', loss: 'lossKept', holdC: 40 },
  { endMin: 242, stirring: 'still', loss: 'lossKept' },
  { endMin: 378, stirring: 'drained', loss: 'lossDrained', holdC: 38, begin: drain },
  { endMin: 390, stirring: 'still', loss: 'lossDrained' },
];

/** The same with every field in every stretch, so that what is timed is the vat and not the look-up of what is left out. */
const CLOCKED: readonly Required<Stretch>[] = STRETCHES.map(
  ({ endMin, stirring, loss, holdC = Number.NaN, toC = Number.NaN, begin = () => undefined }) => ({
    endMin,
    stirring,
    loss,
    holdC,
    toC,
    begin,
  }),
);

function addCulture(vat: Vat): void {
  vat.cultureMin = vat.minute;
  const { inputs } = vat;
  const lactoseMM = inputs.ground.milk.lactoseMM;
  startAcid(vat.acid, { cellsPerL: inputs.cellsPerL, lagWork: inputs.lagWork, pH: curdPHOf(vat), lactoseMM });
}

function cut(vat: Vat): void {
  splitAtCutting(vat.acid);
  vat.cutMin = vat.minute;
  vat.conditions.phase = 'curd-in-whey';
}

const DRAWN_L = 0.3; // of the vat
const WASH_C = 41;

function drawWhey(vat: Vat): void {
  const { wheyL } = vat.conditions;
  vat.conditions.wheyL = washWhey(vat.acid, { wheyL, drawnFraction: Math.min(DRAWN_L / wheyL, 0.95), waterL: 0 });
}

function pourHotWater(vat: Vat): void {
  vat.conditions.wheyL = washWhey(vat.acid, { wheyL: vat.conditions.wheyL, drawnFraction: 0, waterL: DRAWN_L });
  vat.temperatureC = WASH_C;
}

function drain(vat: Vat): void {
  drainWhey(vat.acid);
  vat.conditions.phase = 'drained';
  vat.conditions.wheyL = 0;
  vat.heatCapacityKJPerK = curdKgOf(vat) * 3.09 + vat.inputs.ground.potKJPerK;
}

/** What is done before and after each integration step, for those who write it down. */
export interface Follower {
  readonly before: (vat: Vat, minutes: number, stirring: Stirring) => void;
  readonly after: (vat: Vat) => void;
}

/** Runs it for one member with steps of at most `stepMin`; `follower` sees every step. */
export function runClocked(vat: Vat, inputs: Inputs, stepMin: number, follower?: Follower): void {
  resetVat(vat, inputs);
  vat.acid[ACID_STATE.curdPH] = inputs.startPH;
  for (const stretch of CLOCKED) {
    vat.loss = inputs.ground[stretch.loss];
    const isHeated = !Number.isNaN(stretch.toC);
    const isHeld = !Number.isNaN(stretch.holdC);
    stretch.begin(vat);
    const from = vat.minute;
    vat.heaterW = isHeated
      ? (vat.heatCapacityKJPerK * (stretch.toC - vat.temperatureC)) / (0.06 * (stretch.endMin - from)) +
        inputs.lossFactor * vat.loss.atBodyWPerK * ((stretch.toC + vat.temperatureC) / 2 - inputs.roomC)
      : 0;
    while (vat.minute < stretch.endMin - 1e-9) {
      if (isHeld) vat.temperatureC = Math.max(vat.temperatureC, stretch.holdC);
      const look = isHeld ? Math.min(vat.minute + LOOK_EVERY_MIN, stretch.endMin) : stretch.endMin;
      while (vat.minute < look - 1e-9) {
        const minutes = nextStepMin(vat, stepMin, look - vat.minute);
        follower?.before(vat, minutes, stretch.stirring);
        advance(vat, minutes, stretch.stirring);
        follower?.after(vat);
      }
    }
    if (isHeated) vat.temperatureC = stretch.toC;
  }
}
