import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Written } from '../../../exchange/written.ts';
import type { Entry } from './actions.ts';
import type { Telling } from './said.ts';

/** What is left when the last step is over: weight, label, whey, closing. */
export interface FinishView {
  readonly weight: Written | null;
  readonly expected: string | null;
  readonly name: string;
  readonly lotCode: string;
  readonly made: string;
  readonly keepAt: string;
  readonly useBy: string;
  readonly useByHint: string;
  readonly isLabelled: boolean;
  readonly labelEntries: readonly Entry[];
  readonly whey: string | null;
  readonly isClosed: boolean;
  readonly closed: string | null;
}

const DAY_MS = 86_400_000;
const isoDay = (at: number): string => {
  const day = new Date(at);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
};

/** The finish of a batch; the date to eat by is the maker's own, the make only says what is customary. */
export function finishView(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
}): FinishView {
  const { record, plan, forecast, telling } = input;
  const { say, write } = telling;
  const { shelfLife, name } = plan.make;
  const weighed = record.weighed.findLast((one) => one.what === 'cheese');
  const packedAt = record.steps.reduce((latest, step) => Math.max(latest, step.endedAt ?? 0), record.zeroAt);
  const useByAt = packedAt + shelfLife.days.value * DAY_MS;
  const cheese = forecast?.outcome.cheeseKg;
  const whey = forecast?.outcome.wheyL;
  return {
    weight: weighed === undefined ? null : write.kilograms(weighed.massKg),
    expected: cheese === undefined ? null : say('vat:finish.expected', { low: write.kilograms(cheese.p5).text, high: write.kilograms(cheese.p95).text }), // prettier-ignore
    name,
    lotCode: record.lotCode,
    made: say('vat:finish.made', { day: write.day(packedAt) }),
    keepAt: say('vat:finish.keepAt', { temperature: write.degrees(shelfLife.keptAtC.value).text }),
    useBy: `${say('vat:finish.useBy')}: ${write.day(useByAt)}`,
    useByHint: say('vat:finish.useByHint', { days: shelfLife.days.value }),
    isLabelled: record.labelled.length > 0,
    labelEntries: [
      {
        kind: 'labelled',
        body: {
          name,
          lotCode: record.lotCode,
          packedOn: isoDay(packedAt),
          useBy: isoDay(useByAt),
          keptAtC: shelfLife.keptAtC.value,
        },
      },
    ],
    whey:
      whey === undefined
        ? null
        : say('vat:finish.whey', {
            amount: write.litres(whey.p50).text,
            context: plan.steps.some(({ verb }) => verb === 'wash') ? 'washed' : '',
          }),
    isClosed: record.finishedAt !== null,
    closed: record.finishedAt === null ? null : say('vat:finish.closed', { at: write.clock(record.finishedAt) }),
  };
}
