import { ACID_STATE, exchangePerHour } from '../science/acidification.ts';
import { clottingRatePerMin } from '../science/coagulation.ts';
import { RENNET_HOLDS_BELOW_C } from '../science/heat-death.ts';
import { staphLogsPerMinKernel } from '../science/staph.ts';
import { syneresisRatePerMin, wheyFractionAfter, type Stirring } from '../science/syneresis.ts';
import { lossAt } from '../science/vat.ts';
import { noteCurd, solventKgOf } from './contents.ts';
import { slowBySalt } from './observe-salt.ts';
import { overheat } from './overheat.ts';
import { moveSerum } from './serum.ts';
import { curdPHOf, type Vat } from './vat-state.ts';

/**
 * Moves the vat `minutes` on under constant heating: temperature by the exact law for the loss over it, acid by one
 * Runge-Kutta step with the temperature at its start, middle and end, whey by the exact first-order law in two halves about
 * it. `vat.middle` is left as things stood halfway, but for what had soured by then (`trace.ts`).
 */
export function advance(vat: Vat, minutes: number, stirring: Stirring): void {
  const startC = vat.temperatureC;
  const middleC = warmAndCool(vat, minutes);
  const { middle, acid } = vat;
  middle.temperatureC = Math.min(middleC, BOILS_C);

  if (vat.temperatureC > BOILS_C) {
    // Nobody boils milk away that was to be warmed: by then the burner was off, whatever this member's burner would have done.
    if (vat.isBoiledDown) boilOff(vat);
    else vat.temperatureC = BOILS_C;
  }

  const isCut = !Number.isNaN(vat.cutMin);
  if (isCut) loseWhey(vat, minutes / 2, middleC, stirring);
  if (isCut) noteCurd(vat, middle.curd);
  if (vat.saltMixedKg > 0) slowBySalt(vat);
  const startPH = curdPHOf(vat);
  middle.curdPH = startPH;
  middle.wheyPH = acid[ACID_STATE.wheyPH] ?? 0;
  if (!Number.isNaN(vat.cultureMin)) {
    const { span } = vat;
    span.hours = minutes / 60;
    span.startC = startC;
    span.middleC = middleC;
    span.endC = vat.temperatureC;
    if (vat.conditions.phase === 'curd-in-whey') {
      // A grain that has lost most of its volume is that much smaller, and what travels through it has less far to go.
      vat.acidParameters.exchangePerHour = exchangePerHour(vat.syneresis.cubeMm * Math.cbrt(1 - vat.wheyFraction));
    }
    vat.moveAcid(vat);
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

const BOILS_C = 100; // at sea level; what is dissolved raises it by less than a degree until the end
const EVAPORATION_KJ_PER_KG = 2257; // standard tables
const WATER_KJ_PER_KG_K = 4.18; // standard tables
const LEAST_SERUM_L = 0.004; // our own choice: drier than any boiled whey

/** What is above boiling is not warmth but steam: water leaves, and what it carried stays and grows strong. */
function boilOff(vat: Vat): void {
  const { conditions, acid } = vat;
  const isWhey = conditions.phase === 'curd-in-whey';
  const fromL = isWhey ? conditions.wheyL : conditions.curdSerumL;
  const spareKg = Math.max(fromL - LEAST_SERUM_L, 0) * solventKgOf(vat);
  const steamKg = Math.min((vat.heatCapacityKJPerK * (vat.temperatureC - BOILS_C)) / EVAPORATION_KJ_PER_KG, spareKg);
  const leftL = fromL - steamKg / solventKgOf(vat);
  const strength = isWhey ? ACID_STATE.wheyStrength : ACID_STATE.curdStrength;
  acid[strength] = ((acid[strength] ?? 1) * fromL) / leftL;
  if (isWhey) conditions.wheyL = leftL;
  else conditions.curdSerumL = leftL;
  vat.evaporatedKg += steamKg;
  vat.heatCapacityKJPerK -= steamKg * WATER_KJ_PER_KG_K;
  vat.temperatureC = BOILS_C;
}

/**
 * Newton's law with the loss at the middle of the step (exponential midpoint rule), and where nothing warms it with the loss
 * summed up over the step; gives the temperature halfway.
 */
function warmAndCool(vat: Vat, minutes: number): number {
  if (!Number.isNaN(vat.heldC)) return (vat.temperatureC = vat.heldC);
  const startC = vat.temperatureC;
  const roundC = Number.isNaN(vat.aroundC) ? vat.roomC : vat.aroundC;
  const heaterW = vat.isUnheated ? 0 : vat.heaterW;
  const { lossFactor } = vat.inputs;
  const half = (-0.06 * minutes) / (2 * vat.heatCapacityKJPerK);
  const lossAtStart = lossFactor * lossAt(vat.loss, startC);
  const guessTowardsC = roundC + heaterW / lossAtStart;
  const guessLeft = Math.exp(half * lossAtStart);
  const lossWPerK = lossFactor * lossAt(vat.loss, guessTowardsC + (startC - guessTowardsC) * guessLeft);
  const towardsC = roundC + heaterW / lossWPerK;
  const left = guessLeft * nearlyOne(half * (lossWPerK - lossAtStart));
  const endC = towardsC + (startC - towardsC) * left * left;
  const middleC = towardsC + (startC - towardsC) * left;
  if (heaterW > 0) {
    vat.temperatureC = endC;
    return middleC;
  }
  // Nothing warms it: what the loss comes to over the step is all that counts, so it is summed up (Simpson), and to the middle.
  const moreAtMiddle = lossFactor * lossAt(vat.loss, middleC) - lossAtStart;
  const moreAtEnd = lossFactor * lossAt(vat.loss, endC) - lossAtStart;
  const leftAtEnd = guessLeft * guessLeft * nearlyOne((half / 3) * (4 * moreAtMiddle + moreAtEnd));
  vat.temperatureC = roundC + (startC - roundC) * leftAtEnd;
  return roundC + (startC - roundC) * guessLeft * nearlyOne((half / 12) * (8 * moreAtMiddle - moreAtEnd));
}

/** The exponential of a difference of hundredths, by its series: to a millionth, and cheaper than asking for it. */
const nearlyOne = (x: number): number => 1 + x * (1 + x * (0.5 + x / 6));

function loseWhey(vat: Vat, minutes: number, temperatureC: number, stirring: Stirring): void {
  const { inputs, syneresis } = vat;
  syneresis.temperatureC = temperatureC;
  syneresis.pH = curdPHOf(vat);
  syneresis.stirring = stirring;
  moveSerum(
    vat,
    wheyFractionAfter({
      wheyFraction: vat.wheyFraction,
      wheyEndFraction: vat.wheyEndFraction,
      ratePerMin: inputs.wheyRateFactor * syneresisRatePerMin(syneresis),
      minutes,
    }),
  );
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
