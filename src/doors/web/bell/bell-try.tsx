import type { ReactNode } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Telling } from '../vat/said.ts';
import { BellTest } from './bell-test.tsx';
import { calendarOf } from './calendar-view.ts';

const ITEM = 'milk.bell';

/** The bell's own item of getting ready, with the second clocks that this make can give. */
export function BellTry({
  record,
  plan,
  forecast,
  telling,
  nowAt,
  onHeard,
}: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
  readonly nowAt: number;
  readonly onHeard: (item: { readonly id: string; readonly text: string; readonly dropped: boolean }) => void;
}): ReactNode {
  return (
    <BellTest
      isDone={record.prepared.some((one) => one.item === ITEM)}
      onHeard={() => onHeard({ id: ITEM, text: telling.say('vat:ready.milk.bell'), dropped: false })}
      calendar={
        forecast === null
          ? null
          : () => ({ text: calendarOf({ record, plan, forecast, nowAt, telling }), name: `${record.lotCode}.ics` })
      }
      sheetHref={`/record/${record.batchId}?sheet=make`}
    />
  );
}
