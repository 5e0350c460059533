import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { cutByFlecksMin } from './actions.ts';
import { clockOf, type Telling } from './said.ts';

interface Asked {
  readonly step: PlannedStep;
  readonly plan: Plan;
  readonly record: BatchRecord;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
}

/** One or two lines beneath the numbers that this step cannot do without: coasting, depth, portions, water, ice. */
export function factsOf(asked: Asked): readonly string[] {
  return [coasting, flecks, portions, stretchWater, iced, brining, curdWeight]
    .map((fact) => fact(asked))
    .filter((line) => line !== null);
}

function coasting({ step, forecast, telling }: Asked): string | null {
  const off = forecast?.needs.heatOffC.find((one) => one.stepId === step.id);
  if (off === undefined) return null;
  return telling.say('vat:fact.coasts', { duration: telling.write.duration(off.minutes.p50) });
}

function flecks({ step, record, telling }: Asked): string | null {
  const cutMin = cutByFlecksMin({ step, record, telling });
  return cutMin === null ? null : telling.say('vat:fact.flecks', { at: clockOf(telling, cutMin) });
}

function portions({ step, forecast, telling }: Asked): string | null {
  const water = forecast?.needs.washWaterL;
  const stopC = step.set.stopAtC;
  if (step.verb !== 'wash' || water === undefined || water === null || typeof stopC !== 'number') return null;
  const { say, write } = telling;
  return say('vat:fact.portions', {
    low: write.litres(water.p5).text,
    high: write.litres(water.p95).text,
  });
}

function stretchWater({ step, forecast, telling }: Asked): string | null {
  const water = forecast?.needs.stretchWaterKg;
  if (step.verb !== 'stretch' || water === undefined || water === null) return null;
  const pours = typeof step.set.pours === 'number' ? step.set.pours : 1;
  return telling.say('vat:fact.stretchWater', { count: pours, amount: telling.write.litres(water.p50).text });
}

function iced({ step, forecast, telling }: Asked): string | null {
  const ice = forecast?.needs.iceKg;
  if (step.verb !== 'cool' || ice === undefined || ice === null) return null;
  return telling.say('vat:fact.ice', { amount: telling.write.kilograms(ice.p95).text });
}

function brining({ step, forecast, telling }: Asked): string | null {
  const minutes = forecast?.needs.brineMin;
  if (step.verb !== 'brine' || minutes === undefined || minutes === null) return null;
  const { say, write } = telling;
  const low = write.duration(minutes.p5);
  const middle = write.duration(minutes.p50);
  const high = write.duration(minutes.p95);
  return low === high ? say('vat:fact.brineOnly', { middle }) : say('vat:fact.brine', { low, middle, high });
}

/** Asked for while the curd drains: from this weight everything after it is reckoned. */
function curdWeight({ step, record, forecast, telling }: Asked): string | null {
  if (step.verb !== 'drain') return null;
  const weighed = record.weighed.findLast((one) => one.what === 'drained-curd');
  const { say, write } = telling;
  if (weighed !== undefined) return say('vat:fact.weighed', { weight: write.kilograms(weighed.massKg).text });
  const curd = forecast?.outcome.curdKg;
  if (curd === undefined) return null;
  return say('vat:fact.weigh', { low: write.kilograms(curd.p5).text, high: write.kilograms(curd.p95).text });
}
