import { ACID_STATE, exchangePerHour } from '../science/acidification.ts';
import { expelSerum } from '../science/acidification-events.ts';
import { changeToMiddle } from '../science/acidification-step.ts';
import { clottingRatePerMin } from '../science/coagulation.ts';
import { RENNET_HOLDS_BELOW_C } from '../science/heat-death.ts';
import { staphLogsPerMinKernel } from '../science/staph.ts';
import { syneresisRatePerMin, wheyFractionAfter, type Stirring } from '../science/syneresis.ts';
import { lossAt } from '../science/vat.ts';
import { overheat } from './overheat.ts';
import { curdPHOf, serumShare, type Vat } from './vat-state.ts';

const FIRST_CUT_SHARE = 1e-3; // a film of whey right after cutting, so that curd and whey are two phases at once

/**
 * Moves the vat `minutes` on under constant heating: temperature by the exact law for the loss at its middle, acid by one
 * Runge-Kutta step with the temperature at its start, middle and end, whey by the exact first-order law in two halves about
 * it. `vat.middle` is left as things stood halfway.
 */
export function advance(vat: Vat, minutes: number, stirring: Stirring): void {
  const startC = vat.temperatureC;
  const middleC = warmAndCool(vat, minutes);
  const { middle, acid } = vat;
  middle.temperatureC = middleC;

  const isCut = !Number.isNaN(vat.cutMin);
  if (isCut) loseWhey(vat, minutes / 2, middleC, stirring);
  middle.wheyFraction = vat.wheyFraction;
  const startPH = curdPHOf(vat);
  middle.curdPH = startPH;
  middle.curdStrength = acid[ACID_STATE.curdStrength] ?? 1;
  if (!Number.isNaN(vat.cultureMin)) {
    const { span, acidWork, conditions } = vat;
    span.hours = minutes / 60;
    span.startC = startC;
    span.middleC = middleC;
    span.endC = vat.temperatureC;
    const hasWhey = conditions.phase === 'curd-in-whey';
    if (hasWhey) {
      // A grain that has lost most of its volume is that much smaller, and what travels through it has less far to go.
      vat.acidParameters.exchangePerHour = exchangePerHour(vat.syneresis.cubeMm * Math.cbrt(1 - vat.wheyFraction));
      middle.wheyPH = acid[ACID_STATE.wheyPH] ?? 0;
    }
    vat.moveAcid(vat);
    middle.curdPH += changeToMiddle(acidWork, ACID_STATE.curdPH, span.hours);
    if (hasWhey) {
      middle.wheyPH += changeToMiddle(acidWork, ACID_STATE.wheyPH, span.hours);
      middle.curdStrength += changeToMiddle(acidWork, ACID_STATE.curdStrength, span.hours);
    }
  }
  if (isCut) loseWhey(vat, minutes / 2, middleC, stirring);

  if (!Number.isNaN(vat.rennetMin) && Number.isNaN(vat.flocculationMin)) {
    clot(vat, minutes, startPH);
  }
  if (middleC > vat.inputs.acid.culture.temperatureMaxC || middleC > RENNET_HOLDS_BELOW_C) {
    overheat(vat, minutes, middleC);
  }
  vat.minute += minutes;
  vat.staphLogs += minutes * staphLogsPerMinKernel({ temperatureC: middleC, pH: curdPHOf(vat) });
  if (Number.isNaN(vat.minutesToPH54) && curdPHOf(vat) <= 5.4) vat.minutesToPH54 = vat.minute;
  vat.conditions.temperatureC = vat.temperatureC;
}

/** Newton's law with the loss at the middle of the step (exponential midpoint rule); gives the temperature halfway. */
function warmAndCool(vat: Vat, minutes: number): number {
  if (!Number.isNaN(vat.heldC)) return (vat.temperatureC = vat.heldC);
  const startC = vat.temperatureC;
  const roundC = Number.isNaN(vat.aroundC) ? vat.roomC : vat.aroundC;
  const heaterW = vat.isUnheated ? 0 : vat.heaterW;
  const { lossFactor } = vat.inputs;
  const half = (-0.06 * minutes) / (2 * vat.heatCapacityKJPerK);
  const lossAtStart = lossFactor * lossAt(vat.loss, startC);
  const guessTowardsC = roundC + heaterW / lossAtStart;
  const guessC = guessTowardsC + (startC - guessTowardsC) * Math.exp(half * lossAtStart);
  const lossWPerK = lossFactor * lossAt(vat.loss, guessC);
  const towardsC = roundC + heaterW / lossWPerK;
  const left = Math.exp(half * lossWPerK);
  vat.temperatureC = towardsC + (startC - towardsC) * left * left;
  return towardsC + (startC - towardsC) * left;
}

function loseWhey(vat: Vat, minutes: number, temperatureC: number, stirring: Stirring): void {
  const { inputs, conditions, syneresis, expulsion } = vat;
  syneresis.temperatureC = temperatureC;
  syneresis.pH = curdPHOf(vat);
  syneresis.stirring = stirring;
  vat.wheyFraction = wheyFractionAfter({
    wheyFraction: vat.wheyFraction,
    wheyEndFraction: inputs.wheyEndFraction,
    ratePerMin: inputs.wheyRateFactor * syneresisRatePerMin(syneresis),
    minutes,
  });
  const serumL = serumShare(inputs, Math.max(vat.wheyFraction, FIRST_CUT_SHARE));
  const expelledL = conditions.curdSerumL - serumL;
  if (expelledL <= 0) return;
  expulsion.curdSerumL = conditions.curdSerumL;
  expulsion.wheyL = conditions.wheyL;
  expulsion.expelledL = expelledL;
  expulsion.drained = conditions.phase === 'drained';
  expelSerum(vat.acid, inputs.acid, expulsion);
  conditions.curdSerumL = serumL;
  if (!expulsion.drained) conditions.wheyL += expelledL;
}

/** Clotting goes on at the rate of the step's middle until it is complete. */
function clot(vat: Vat, minutes: number, startPH: number): void {
  vat.clotting.temperatureC = vat.middle.temperatureC;
  vat.clotting.pH = (startPH + curdPHOf(vat)) / 2;
  const gained = minutes * clottingRatePerMin(vat.clotting);
  if (vat.clotProgress + gained >= 1) {
    vat.flocculationMin = vat.minute + (minutes * (1 - vat.clotProgress)) / gained;
  }
  vat.clotProgress += gained;
}
