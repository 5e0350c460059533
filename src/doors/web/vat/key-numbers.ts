import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import type { Written } from '../../../exchange/written.ts';
import { minutesWritten, type Telling } from './said.ts';

/** One of the at most two numbers of the vat card. */
export interface KeyNumber {
  readonly label: string;
  readonly written: Written;
  /** The same in a kitchen's words: "half the packet", "about 12 drops". */
  readonly kitchen: string | null;
}

interface Asked {
  readonly step: PlannedStep;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
  /** Minutes of the batch, now. */
  readonly nowMin: number;
  /** When to look or act next, minutes of the batch. */
  readonly nextLookMin: number | null;
}

/** The one or two numbers that this step is done by, most wanted first. */
export function keyNumbers(asked: Asked): readonly KeyNumber[] {
  const found = [amountNumber, heatOffNumber, wheyNumber, depthNumber, drainedNumber, waterNumber, stopNumber, temperatureNumber, sizeNumber, curdNumber, bathNumber, brineNumber, pressNumber, airNumber, pieceNumber, lookNumber]
    .map((number) => number(asked))
    .filter((number) => number !== null); // prettier-ignore
  return found.slice(0, 2);
}

const setting = (asked: Asked, name: keyof PlannedStep['set']): number | null => {
  const value = asked.step.set[name];
  return typeof value === 'number' ? value : null;
};

const number = (asked: Asked, label: string, written: Written, kitchen: string | null = null): KeyNumber => ({
  label: asked.telling.say(`vat:number.${label}`),
  written,
  kitchen,
});

const MEASURED: ReadonlySet<string> = new Set(['add', 'heatWithAcid', 'drySalt']);

function amountNumber(asked: Asked): KeyNumber | null {
  if (!MEASURED.has(asked.step.verb)) return null;
  const amount = asked.plan.amounts.find((one) => one.stepId === asked.step.id);
  if (amount === undefined) return null;
  return number(asked, `amount.${amount.id}`, amountWritten(asked.telling, amount), amount.kitchen?.words ?? null);
}

/** An amount in its own unit, written for this reader. */
export function amountWritten(telling: Telling, amount: Plan['amounts'][number]): Written {
  const { write, say } = telling;
  switch (amount.unit) {
    case 'g':
      return write.grams(amount.value);
    case 'kg':
      return write.kilograms(amount.value);
    case 'mL':
      return write.millilitres(amount.value);
    case 'L':
      return write.litres(amount.value);
    case 'drops':
    case 'packets': {
      const count = write.number(amount.value, amount.unit === 'drops' || amount.value % 1 === 0 ? 0 : 2);
      const unit = say(`vat:unit.${amount.unit}`, { count: amount.value });
      return { number: count, unit, text: `${count}\u202F${unit}` };
    }
  }
}

function heatOffNumber(asked: Asked): KeyNumber | null {
  const off = asked.forecast?.needs.heatOffC.find((one) => one.stepId === asked.step.id);
  return off === undefined ? null : number(asked, 'burnerOff', asked.telling.write.temperature(off.offC.p50));
}

function wheyNumber(asked: Asked): KeyNumber | null {
  if (asked.step.verb !== 'drawWhey') return null;
  const volume = asked.forecast?.needs.wheyDrawnL;
  return volume === undefined || volume === null ? null : number(asked, 'whey', asked.telling.write.litres(volume.p50));
}

function depthNumber(asked: Asked): KeyNumber | null {
  if (asked.step.verb !== 'drawWhey') return null;
  const depth = asked.forecast?.needs.wheyDrawnCm;
  return depth === undefined || depth === null ? null : number(asked, 'depth', asked.telling.write.depth(depth.p50));
}

/** The curd's weight as foreseen, or as weighed once it was. */
function drainedNumber(asked: Asked): KeyNumber | null {
  const curd = asked.forecast?.outcome.curdKg;
  if (asked.step.verb !== 'drain' || curd === undefined) return null;
  return number(asked, 'curdWeighs', asked.telling.write.kilograms(curd.p50));
}

function waterNumber(asked: Asked): KeyNumber | null {
  const waterC = setting(asked, 'waterC');
  if (waterC === null) return null;
  const heldC = asked.step.verb === 'stretch' ? (asked.forecast?.needs.stretchWaterC ?? waterC) : waterC;
  return number(asked, 'water', asked.telling.write.degrees(heldC));
}

function stopNumber(asked: Asked): KeyNumber | null {
  const stopC = setting(asked, 'stopAtC');
  return stopC === null ? null : number(asked, 'stopPouring', asked.telling.write.degrees(stopC));
}

function temperatureNumber(asked: Asked): KeyNumber | null {
  const toC = setting(asked, 'toC');
  if (toC !== null) return number(asked, 'warmTo', asked.telling.write.temperature(toC));
  const atC = setting(asked, 'atC');
  if (atC === null || asked.step.verb === 'add' || asked.step.verb === 'cut') return null;
  return number(asked, asked.step.verb === 'store' ? 'keepAt' : 'holdAt', asked.telling.write.temperature(atC));
}

function sizeNumber(asked: Asked): KeyNumber | null {
  const cubeMm = setting(asked, 'cubeMm');
  if (cubeMm === null) return null;
  const { write } = asked.telling;
  return number(asked, 'cubes', write.units === 'metric' ? { number: write.number(cubeMm, 0), unit: 'mm', text: `${write.number(cubeMm, 0)}\u202Fmm` } : write.depth(cubeMm / 10)); // prettier-ignore
}

function curdNumber(asked: Asked): KeyNumber | null {
  const curdC = setting(asked, 'curdTargetC');
  return curdC === null ? null : number(asked, 'curdInside', asked.telling.write.degrees(curdC));
}

function bathNumber(asked: Asked): KeyNumber | null {
  const bathC = setting(asked, 'bathC');
  return bathC === null ? null : number(asked, 'bath', asked.telling.write.temperature(bathC));
}

function brineNumber(asked: Asked): KeyNumber | null {
  const percent = setting(asked, 'brinePercent');
  return percent === null ? null : number(asked, 'brine', asked.telling.write.percent(percent));
}

function pressNumber(asked: Asked): KeyNumber | null {
  const kPa = setting(asked, 'pressureKPa');
  if (kPa === null) return null;
  const text = asked.telling.write.number(kPa, 0);
  return number(asked, 'press', { number: text, unit: 'kPa', text: `${text}\u202FkPa` });
}

function airNumber(asked: Asked): KeyNumber | null {
  const percent = setting(asked, 'humidityPercent') ?? setting(asked, 'moisturePercent');
  const label = asked.step.verb === 'boilDown' ? 'downTo' : 'humidity';
  return percent === null ? null : number(asked, label, asked.telling.write.percent(percent));
}

function pieceNumber(asked: Asked): KeyNumber | null {
  const pieceG = setting(asked, 'pieceG');
  return pieceG === null ? null : number(asked, 'piece', asked.telling.write.grams(pieceG));
}

function lookLabel({ step }: Asked): string {
  if (step.verb === 'brine') return 'outIn';
  return step.until.of.every((condition) => condition.kind === 'time') ? 'left' : 'lookIn';
}

function lookNumber(asked: Asked): KeyNumber | null {
  if (asked.nextLookMin === null || asked.nextLookMin - asked.nowMin < 0) return null;
  return number(asked, lookLabel(asked), minutesWritten(asked.nextLookMin - asked.nowMin));
}
