import type { ReactNode } from 'react';
import type { LoggerOutcome, LoggerQuantity } from '../../../exchange/logger/logger-file.ts';
import { displayValue } from '../../../make/quantity.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useWidth } from '../chart/use-width.ts';
import { useReader } from '../device/reader.tsx';
import { utcOffsetMin } from '../vat/utc-offset.ts';
import { loggerPlot } from './logger-plot-view.ts';

const HEIGHT = 240;

/** The file against the make's clock: every row as a line, what would be noted as dots, what is there already as rings. */
export function LoggerPlot({
  quantity,
  outcome,
  record,
  plan,
}: {
  readonly quantity: LoggerQuantity;
  readonly outcome: LoggerOutcome;
  readonly record: BatchRecord;
  readonly plan: Plan;
}): ReactNode {
  const { say, write } = useReader();
  const { ref, widthPx } = useWidth<HTMLDivElement>(640);
  const units = write.units;
  const plot = loggerPlot({
    quantity,
    all: outcome.all,
    kept: outcome.readings,
    already: record.readings.filter((one) => one.quantity === quantity),
    steps: record.steps.flatMap(({ stepId, startedAt }) => (startedAt === null ? [] : [{ name: plan.steps.find(({ id }) => id === stepId)?.name ?? stepId, startedAt }])), // prettier-ignore
    widthPx: Math.max(280, widthPx),
    heightPx: HEIGHT,
    utcOffsetMin: utcOffsetMin(record.zeroAt),
    shown: (value) => displayValue({ quantity, value, units }).value,
  });
  const count = plot.kept.length;
  const label = say(`instruments:plot.${quantity}`, { count });
  return (
    <figure className="logger-plot" ref={ref}>
      <figcaption>{label}</figcaption>
      <svg width={plot.widthPx} height={plot.heightPx} role="img" aria-label={label}>
        {plot.values.map(({ y, value }) => (
          <g key={value}>
            <line className="logger-grid" x1={48} x2={plot.widthPx} y1={y} y2={y} />
            <text className="logger-text" x={44} y={y} textAnchor="end" dominantBaseline="central">
              {write.number(value, quantity === 'pH' ? 1 : 0)}
            </text>
          </g>
        ))}
        {plot.clocks.map(({ x, at }) => (
          <text key={at} className="logger-text" x={x} y={plot.heightPx - 8} textAnchor="middle">
            {write.clock(at)}
          </text>
        ))}
        {plot.steps.map((step) => (
          <g key={`${step.name} ${step.x}`}>
            <line className="logger-step" x1={step.x} x2={step.x} y1={8} y2={plot.heightPx - 26} />
            {step.isNamed ? (
              <text className="logger-text" x={step.x + 5} y={18}>
                {step.name}
              </text>
            ) : null}
          </g>
        ))}
        <path className="logger-course" d={plot.course} />
        {plot.already.map(({ x, y }, index) => (
          <circle key={`${x} ${index}`} className="logger-already" cx={x} cy={y} r={6} />
        ))}
        {plot.kept.map(({ x, y }, index) => (
          <circle key={`${x} ${index}`} className="logger-kept" cx={x} cy={y} r={3.5} />
        ))}
      </svg>
    </figure>
  );
}
