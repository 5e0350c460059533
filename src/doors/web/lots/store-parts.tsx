import { useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { readTyped, shortText } from '../../../exchange/typed-quantity.ts';
import { dayNumber } from '../../../record/day-number.ts';
import { ALL_KINDS } from '../../../record/keeping-events.ts';
import type { LotRecord } from '../../../record/lot-record.ts';
import { leftOfLot } from '../../../record/store-uses.ts';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import type { Note } from '../log/event-log.ts';
import { Button } from '../look/button.tsx';
import { Field } from '../look/field.tsx';
import { NumberField } from '../look/number-field.tsx';
import { useWholeMakes } from '../makes/use-makes.ts';
import { wallInstant } from '../plan/wall-clock.ts';
import { UNITS_OF } from './lot-draft.ts';
import { buyLines, costRows, storeLines, type Stores } from './stores-view.ts';

/** What is left of a lot, how long it keeps, what it cost; and the count that sets it right. */
export function StoreLines({
  lot,
  stores,
  today,
  onRecord,
}: {
  readonly lot: LotRecord;
  readonly stores: Stores;
  readonly today: string;
  readonly onRecord: (notes: readonly Note[], words: string) => void;
}): ReactNode {
  const { say, write, settings } = useReader();
  const [counting, setCounting] = useState(false);
  const [text, setText] = useState('');
  const [isWrong, setWrong] = useState(false);
  const instantOf = (day: string): number | null => wallInstant({ day, time: '12:00' });
  const { lines, warning } = storeLines({ lot, uses: stores.uses, today: dayNumber(today), currency: settings.currency, instantOf, say, write }); // prettier-ignore
  const { left } = leftOfLot({ lot, uses: stores.uses });
  const unit = lot.counted?.unit ?? lot.amount?.unit ?? UNITS_OF[lot.kind ?? 'other'][0] ?? 'g';
  const keep = (): void => {
    const read = readTyped({ text, field: 'left' });
    if ('problem' in read || read.value < 0) return setWrong(true);
    onRecord([{ kind: 'lotCounted', streamId: lot.lotId, body: { left: read.value, unit }, kinds: ALL_KINDS }], say('stores:count.done', { name: lot.name })); // prettier-ignore
    setCounting(false);
    setWrong(false);
  };
  return (
    <>
      {lines.map((line) => (
        <p key={line} className="lots-note">
          {line}
        </p>
      ))}
      {warning === null ? null : <p className="lots-warning">{warning}</p>}
      {counting ? (
        <form
          className="lots-count"
          onSubmit={(event) => {
            event.preventDefault();
            keep();
          }}
        >
          <NumberField
            label={say('stores:count.left')}
            value={text}
            unit={unit}
            width={5}
            error={isWrong ? say('stores:count.wrong') : undefined}
            onChange={setText}
          />
          <button type="submit" className="button button-second button-desk">
            <span>{say('stores:count.keep')}</span>
          </button>
        </form>
      ) : (
        <May note="lotCounted" of={lot.lotId}>
          <p>
            <Button
              kind="quiet"
              onClick={() => {
                setText(left === null ? '' : shortText(left.value));
                setCounting(true);
              }}
            >
              {say('stores:count.open')}
            </Button>
          </p>
        </May>
      )}
    </>
  );
}

/** What the planned makes will run out of. */
export function StoreBuy({ stores }: { readonly stores: Stores }): ReactNode {
  const { say, write } = useReader();
  const planned = useMemo(() => [...new Set(stores.plans.map(({ makeId }) => makeId))], [stores.plans]);
  const { makes } = useWholeMakes(planned);
  const lines = useMemo(() => buyLines({ stores, makes, say, write }), [stores, makes, say, write]);
  if (lines.length === 0) return null;
  return (
    <section aria-labelledby="stores-buy">
      <h2 id="stores-buy">{say('stores:buy.title')}</h2>
      <ul className="lots-buy">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}

/** What the last makes cost, in the maker's own money. */
export function StoreCosts({ stores }: { readonly stores: Stores }): ReactNode {
  const { say, write, settings, change } = useReader();
  const rows = useMemo(() => costRows({ stores, currency: settings.currency, say, write }), [stores, settings.currency, say, write]); // prettier-ignore
  const isPriced = stores.lots.some(({ price }) => price !== null);
  if (!isPriced) return null;
  return (
    <section className="lots-costs" aria-labelledby="stores-costs">
      <h2 id="stores-costs">{say('stores:cost.title')}</h2>
      <p className="lots-note">{say('stores:cost.about')}</p>
      <Field label={say('stores:currency')} hint={say('stores:currencyHint')}>
        {(ties) => (
          <input
            {...ties}
            className="field-input"
            size={6}
            maxLength={6}
            autoComplete="off"
            value={settings.currency}
            onChange={(event) => change({ currency: event.target.value })}
          />
        )}
      </Field>
      <ul className="lots-buy">
        {rows.map(({ batchId, name, day, words, without }) => (
          <li key={batchId}>
            <Link href={`/record/${batchId}`}>{name}</Link> {day}: <strong>{words}</strong> <span>{without}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
