import { useMemo, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { useForecast } from '../forecasting/use-forecast.ts';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import { storesOf } from '../lots/stores-view.ts';
import { useMakes, useWholeMakes } from '../makes/use-makes.ts';
import { planFor } from '../plan/plan-for.ts';
import { useLotDraft } from '../plan/use-lot-draft.ts';
import { buyingView, type BuyingRow, type BuyingView } from './buying-view.ts';
import { stockOf } from './stock-of.ts';
import '../print/print.css';
import './buying.css';

/** Enough for how much ice, brine and salt; bands are not told here. */
const MEMBERS = [100] as const;

/** What to bring home for the plan on the table, what the house has of it, and what to do the evening before; for the hand and for paper. */
export function BuyingScreen(): ReactNode {
  const { say, write, book } = useReader();
  const now = useNow(60_000);
  const { listed } = useMakes();
  const makeIds = useMemo(() => listed.map(({ facts }) => facts.id), [listed]);
  const { draft } = useLotDraft({ makeIds, units: write.units, now });
  const { makes } = useWholeMakes(useMemo(() => [draft.makeId], [draft.makeId]));
  const [make] = makes;
  const plan = useMemo(
    () => (make === undefined ? null : planFor({ draft, make, units: write.units }).plan),
    [draft, make, write.units],
  );
  const { forecast } = useForecast(plan, { members: MEMBERS });
  const { held } = useLog();
  const stock = useMemo(() => stockOf(storesOf({ streams: held.streams, now: 0 })), [held.streams]);
  const view = useMemo(
    () => (plan === null ? null : buyingView({ plan: book.plan(plan), forecast, stock, say, write })),
    [plan, forecast, stock, say, write, book],
  );
  return (
    <div className="buying">
      <p className="no-print">
        <Link className="buying-link" href="/plan">
          {say('buying:back')}
        </Link>
      </p>
      {view === null || plan === null ? (
        <p role="status">{say('buying:noPlan')}</p>
      ) : (
        <>
          <header className="buying-head">
            <h1>{say('buying:title', { name: plan.make.name })}</h1>
            <p>{say('buying:lead', { litres: write.litres(plan.setup.milk.volumeL).text })}</p>
            <p className="no-print">
              <Button kind="main" onClick={() => window.print()}>
                {say('buying:print')}
              </Button>{' '}
              <Link className="buying-link" href="/bench/lots">
                {say('buying:lots')}
              </Link>
            </p>
          </header>
          <Card rim aria-label={say('buying:list')}>
            <ul className="buying-rows">
              {view.rows.map((row) => (
                <Row key={row.id} row={row} />
              ))}
            </ul>
          </Card>
          <Carton view={view} />
          <Evening view={view} />
        </>
      )}
    </div>
  );
}

function Row({ row }: { readonly row: BuyingRow }): ReactNode {
  const { say } = useReader();
  return (
    <li className="buying-row" data-there={row.isThere}>
      <span className="buying-box" aria-hidden="true" />
      <div>
        <p className="buying-what">
          <strong className="pair numerals">{row.amount}</strong>{' '}
          {row.other === null ? null : <span className="buying-other pair">({row.other})</span>} {row.what}
        </p>
        {row.hint === null ? null : <p className="buying-hint">{row.hint}</p>}
        {row.house === null ? null : <p className="buying-house">{row.house}</p>}
        {row.standIns.length === 0 ? null : (
          <details className="buying-instead">
            <summary>{say('buying:instead')}</summary>
            <ul>
              {row.standIns.map((one) => (
                <li key={one.id}>
                  {one.text} {one.doubts}{' '}
                  <span className="buying-hint">{say('plan:source', { source: one.source })}</span>
                </li>
              ))}
            </ul>
          </details>
        )}
      </div>
    </li>
  );
}

function Carton({ view }: { readonly view: BuyingView }): ReactNode {
  const { say } = useReader();
  return (
    <Card aria-labelledby="buying-carton">
      <h2 id="buying-carton">{say('buying:cartonTitle')}</h2>
      <div className="buying-carton">
        <div>
          <h3>{say('plan:shopping.buy')}</h3>
          <ul>
            {view.buy.map((word) => (
              <li key={word}>{word}</li>
            ))}
          </ul>
        </div>
        <div>
          <h3>{say('plan:shopping.avoid')}</h3>
          <ul className="buying-avoid">
            {view.avoid.map((word) => (
              <li key={word}>{word}</li>
            ))}
          </ul>
        </div>
      </div>
      <ul className="buying-warnings">
        {view.warnings.map(({ id, text, isRefused, source }) => (
          <li key={id} data-refused={isRefused}>
            {text} <span className="buying-hint">{say('plan:source', { source })}</span>
          </li>
        ))}
      </ul>
    </Card>
  );
}

function Evening({ view }: { readonly view: BuyingView }): ReactNode {
  const { say } = useReader();
  if (view.evening.length === 0) return null;
  return (
    <Card aria-labelledby="buying-evening">
      <h2 id="buying-evening">{say('buying:eveningTitle')}</h2>
      <dl className="buying-evening">
        {view.evening.map(({ where, jobs }) => (
          <div key={where}>
            <dt>{say(`buying:where.${where}`)}</dt>
            <dd>
              <ul>
                {jobs.map((job) => (
                  <li key={job}>{job}</li>
                ))}
              </ul>
            </dd>
          </div>
        ))}
      </dl>
    </Card>
  );
}
