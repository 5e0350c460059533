import type { ReactNode } from 'react';
import { restsTold } from '../../../exchange/rests-told.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import { useReader } from '../device/reader.tsx';
import { useKitchenChecks } from './use-kitchen-checks.ts';
import './rests.css';

/** What the bands rest on, folded away below them. */
export function RestsLines({ forecast }: { readonly forecast: Pick<Forecast, 'restsOn'> }): ReactNode {
  const { say } = useReader();
  const checks = useKitchenChecks();
  return (
    <details className="plan-note rests">
      <summary>{say('plan:rests.title')}</summary>
      <ul>
        {restsTold({ restsOn: forecast.restsOn, checks, say }).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  );
}
