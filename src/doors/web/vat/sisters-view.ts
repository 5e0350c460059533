import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { decidedByEye } from './decisive-step.ts';
import { clockOf, listText, type Telling } from './said.ts';
import type { Learning } from './use-sisters.ts';

/** What the pots beside this one have told, as the vat says it. */
export interface SistersView {
  /** Null where they have told nothing. */
  readonly learned: string | null;
  /** This pot stands out, or two differ and nobody can say which; null where neither is so. */
  readonly odd: string | null;
}

/** "Learned from Birch, flecks after 14 min: “It breaks clean” between 11:20 and 11:40." */
export function sistersView(input: {
  readonly learning: Learning | null;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
}): SistersView | null {
  const { learning, plan, forecast, telling } = input;
  if (learning === null) return null;
  const { learned, sisters } = learning;
  const { say } = telling;
  const records = sisters.map(({ record }) => record);
  const nameOf = potNames(records);
  const tellers = learned.from.flatMap((id) => records.filter(({ batchId }) => batchId === id));
  const pots = listText(
    tellers.map((record) => toldOf(record, nameOf(record), telling)),
    say('vat:sisters.and'),
  );
  const next = forecast === null ? null : decidedByEye({ plan, forecast });
  const isForeseen = next !== null && Number.isFinite(next.endMin.p95);
  const told = isForeseen ? say('vat:sisters.learned', { pots, what: next.label, low: clockOf(telling, next.endMin.p5), high: clockOf(telling, next.endMin.p95) }) : say('vat:sisters.told', { pots }); // prettier-ignore
  const unlike = learned.unlike[0];
  const others = listText(records.slice(1).map(nameOf), say('vat:sisters.and'));
  return {
    learned: tellers.length === 0 || learned.beliefs === null ? null : told,
    odd:
      learned.odd !== null
        ? say('vat:sisters.odd', { others, ask: say(`vat:sisters.ask.${learned.odd}`) })
        : unlike === undefined
          ? null
          : say('vat:sisters.unlike', { others, ask: say(`vat:sisters.ask.${unlike}`) }),
  };
}

/** Its name, with its lot code where another pot has the same. */
function potNames(records: readonly BatchRecord[]): (record: BatchRecord) => string {
  return ({ name, lotCode }) => (records.filter((other) => other.name === name).length > 1 ? lotCode : name);
}

function toldOf(record: BatchRecord, name: string, { say, write }: Telling): string {
  const flecks = record.readings.findLast(({ quantity }) => quantity === 'flocculationMin');
  return flecks === undefined ? name : say('vat:sisters.flecks', { pot: name, after: write.duration(flecks.value) });
}
