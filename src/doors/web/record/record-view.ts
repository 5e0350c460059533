import type { Spread } from '../../../numbers/stats.ts';
import { convert } from '../../../numbers/units.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Aim } from '../../../make/make.ts';
import type { Plan } from '../../../make/plan.ts';
import type { ExpectedReading } from '../chart/expected-reading.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Telling } from '../vat/said.ts';

/** A figure of the outcome: weighed or read, or worked out with its likely range. */
export interface OutcomeLine {
  readonly name: string;
  readonly value: string;
  /** How it is known: "weighed", "read", or "worked out, 9 times in 10 …". */
  readonly basis: string;
}

/** One aim of the make and whether it was met, as far as anybody can tell. */
export interface AimLine {
  readonly name: string;
  readonly wanted: string;
  readonly came: string;
  readonly verdict: string;
}

/** A reading within this many minutes of a step's end counts as its pH then (common practice, no source). */
const NEAR_MIN = 20;

/** Yield and composition: what was weighed first, what is only worked out after it. */
export function outcomeLines(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
}): readonly OutcomeLine[] {
  const { record, plan, forecast, telling } = input;
  const { say, write } = telling;
  const lines: OutcomeLine[] = [];
  const volumeL = plan.setup.milk.volumeL;
  const oneL = write.units === 'us' ? convert({ value: 1, from: 'us-quart', to: 'L' }) : 1;
  const weighed = record.weighed.findLast((one) => one.what === 'cheese');
  const curd = record.weighed.findLast((one) => one.what === 'drained-curd');
  if (curd !== undefined) lines.push({ name: say('record:outcome.curd'), value: write.kilograms(curd.massKg).text, basis: say('record:basis.weighed') }); // prettier-ignore
  if (weighed !== undefined) {
    lines.push({
      name: say('record:outcome.cheese'),
      value: write.kilograms(weighed.massKg).text,
      basis: say('record:basis.weighed'),
    });
    lines.push({
      name: say('record:outcome.yield'),
      value: say('record:outcome.perLitre', {
        amount: write.grams((weighed.massKg * 1000 * oneL) / volumeL).text,
        of: write.litres(oneL).text,
      }),
      basis: say('record:basis.fromWeight'),
    });
  }
  if (forecast === null) return lines;
  const { outcome } = forecast;
  const worked = (name: string, spread: Spread, text: (value: number) => string): void => {
    if (!Number.isFinite(spread.p50)) return;
    lines.push({ name: say(`record:outcome.${name}`), value: text(spread.p50), basis: say('record:basis.worked', { low: text(spread.p5), high: text(spread.p95) }) }); // prettier-ignore
  };
  const kg = (massKg: number): string => write.kilograms(massKg).text;
  const percent = (value: number): string => write.percent(value, value < 10 ? 1 : 0).text;
  if (weighed === undefined) worked('cheese', outcome.cheeseKg, kg);
  if (curd === undefined) worked('curd', outcome.curdKg, kg);
  worked('moisture', outcome.moisturePercent, percent);
  worked('fatInDryMatter', outcome.fatInDryMatterPercent, percent);
  worked('salt', outcome.saltPercent, percent);
  worked('saltInMoisture', outcome.saltInMoisturePercent, percent);
  worked(
    plan.steps.some(({ verb }) => verb === 'wash') ? 'wheyAndWash' : 'whey',
    outcome.wheyL,
    (volume) => write.litres(volume).text,
  );
  return lines;
}

/** Each aim against what came: a reading where there is one, else how likely the sums hold it. */
export function aimLines(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
}): readonly AimLine[] {
  const { record, plan, forecast, telling } = input;
  return plan.make.aims.map((aim, index) => {
    const measured = measuredFor({ aim, record, plan });
    const foreseen = forecast?.aims.find((one) => one.aim === index);
    const text = (value: number): string => aimText(telling, aim, value);
    return {
      name: telling.say(`record:aim.${aim.quantity}`),
      wanted: telling.say('record:span', { low: text(aim.low), high: text(aim.high) }),
      came: measured !== null ? text(measured) : foreseen === undefined || !Number.isFinite(foreseen.spread.p50) ? telling.say('record:notKnown') : telling.say('record:about', { value: text(foreseen.spread.p50) }), // prettier-ignore
      verdict: verdictOf({ aim, measured, chance: foreseen?.probability ?? null, telling }),
    };
  });
}

function measuredFor(input: { readonly aim: Aim; readonly record: BatchRecord; readonly plan: Plan }): number | null {
  const { aim, record, plan } = input;
  if (aim.quantity === 'cheesePerMilkKgPerL') {
    const weighed = record.weighed.findLast((one) => one.what === 'cheese');
    return weighed === undefined ? null : weighed.massKg / plan.setup.milk.volumeL;
  }
  if (aim.quantity !== 'pH') return null;
  const endedAt = record.steps.find((step) => step.stepId === aim.moment)?.endedAt ?? null;
  if (endedAt === null) return null;
  const near = record.readings
    .filter(
      (reading) =>
        reading.quantity === 'pH' &&
        reading.sample === aim.sample &&
        Math.abs(reading.at - endedAt) <= NEAR_MIN * 60_000,
    )
    .sort((a, b) => Math.abs(a.at - endedAt) - Math.abs(b.at - endedAt));
  return near[0]?.value ?? null;
}

function verdictOf(input: {
  readonly aim: Aim;
  readonly measured: number | null;
  readonly chance: number | null;
  readonly telling: Telling;
}): string {
  const { aim, measured, chance, telling } = input;
  if (measured !== null) {
    const key = measured < aim.low ? 'below' : measured > aim.high ? 'above' : 'met';
    return telling.say(`record:verdict.${key}`);
  }
  if (chance === null) return telling.say('record:verdict.unknown');
  const inTen = Math.round(chance * 10);
  // "10 in 10" is no chance: what is as good as certain is said plainly.
  const sure = inTen >= 10 ? 'surelyMet' : inTen <= 0 ? 'surelyMissed' : null;
  return sure === null ? telling.say('record:verdict.chance', { inTen }) : telling.say(`record:verdict.${sure}`);
}

function aimText(telling: Telling, aim: Aim, value: number): string {
  const { write, say } = telling;
  switch (aim.quantity) {
    case 'pH':
      return write.pH(value).number;
    case 'cheesePerMilkKgPerL':
      return say('record:outcome.perLitre', { amount: write.grams(value * 1000).text, of: write.litres(1).text });
    case 'moisturePercent':
    case 'fatInDryMatterPercent':
    case 'saltPercent':
    case 'saltInMoisturePercent':
      return write.percent(value, value < 10 ? 1 : 0).text;
  }
}

/** What was foreseen and what came, one row a reading. */
export function foresightRows(input: {
  readonly record: BatchRecord;
  readonly telling: Telling;
  readonly expectedOf: (reading: BatchRecord['readings'][number]) => ExpectedReading | null;
}): readonly (readonly string[])[] {
  const { record, telling, expectedOf } = input;
  return record.readings.flatMap((reading) => {
    if (reading.quantity !== 'pH' && reading.quantity !== 'temperatureC') return [];
    const cut = expectedOf(reading);
    if (cut === null) return [];
    const text = (value: number): string =>
      reading.quantity === 'pH' ? telling.write.pH(value).number : telling.write.temperature(value).text;
    const inside = reading.value >= cut.p5 && reading.value <= cut.p95;
    return [[telling.write.clock(reading.at), telling.say(`record:quantity.${reading.quantity}`), telling.say('record:span', { low: text(cut.p5), high: text(cut.p95) }), text(reading.value), telling.say(inside ? 'record:inside' : 'record:outside')]]; // prettier-ignore
  });
}
