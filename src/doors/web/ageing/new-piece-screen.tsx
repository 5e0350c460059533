import { useMemo, useState, type ReactNode } from 'react';
import { Link, useLocation, useSearchParams } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import { foldOnce } from '../log/fold-once.ts';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { Choice } from '../look/choice.tsx';
import { Field } from '../look/field.tsx';
import { Notice } from '../look/notice.tsx';
import { NumberField } from '../look/number-field.tsx';
import { SelectField } from '../look/select-field.tsx';
import { localDay } from '../plan/wall-clock.ts';
import { CareForm } from './care-form.tsx';
import { stayWords } from './care-words.ts';
import { DayField } from '../look/day-field.tsx';
import { careOf, freshPiece, newNotes, SIZES_OF, stylesFor, type NewDraft, type NewField } from './new-draft.ts';
import { PlaceForm } from './place-form.tsx';
import { useDarkHere } from './use-dark-here.ts';
import { useKeeping, useKept } from './use-kept.ts';
import type { Care } from '../../../record/care-plan.ts';
import './ageing.css';
import './piece.css';

const TREATMENTS = ['unknown', 'raw', 'pasteurised', 'high-heat'] as const;
const SHAPES = ['unknown', 'cylinder', 'sphere', 'brick'] as const;

/** A cheese on a shelf: from the finish of a make with what its record says, or by hand. */
export function NewPieceScreen(): ReactNode {
  const { say } = useReader();
  return (
    <div className="ageing">
      <p className="sum-back">
        <Link href="/ageing">{say('ageing:back')}</Link>
      </p>
      <h1>{say('ageing:new.title')}</h1>
      <May note="pieceMade" tells>
        <NewPiece />
      </May>
    </div>
  );
}

function NewPiece(): ReactNode {
  const { say, write, settings } = useReader();
  useDarkHere(settings);
  const { log, held } = useLog();
  const [, go] = useLocation();
  const [asked] = useSearchParams();
  const { kept, now } = useKept();
  const keeping = useKeeping();
  const batchId = asked.get('batch');
  const events = batchId === null ? undefined : held.streams.get(`batch:${batchId.replace(/^batch:/, '')}`);
  const record = useMemo(() => (events === undefined ? null : foldOnce(events)), [events]);
  const places = [...kept.places.values()].filter(({ isClosed }) => !isClosed);
  const [draft, setDraft] = useState<NewDraft>(() => freshPiece({ record, today: localDay(now), place: places[0]?.placeId ?? '', units: write.units })); // prettier-ignore
  const [wrong, setWrong] = useState<readonly NewField[]>([]);
  const [own, setOwn] = useState<Care | null>(null);
  const [adding, setAdding] = useState(places.length === 0);
  const put = (change: Partial<NewDraft>): void => setDraft({ ...draft, ...change });
  const { care } = careOf({ draft, record });
  const errorAt = (field: NewField): string | undefined => (wrong.includes(field) ? say(`ageing:new.wrong.${field}`) : undefined); // prettier-ignore
  const keep = async (): Promise<void> => {
    const read = newNotes({ draft, record, units: write.units, today: localDay(now), say, newStreamId: (type) => log.newStreamId(type) }); // prettier-ignore
    if ('wrong' in read) return setWrong(read.wrong);
    const notes = own === null ? read.notes : read.notes.map((note) => ({ ...note, body: { ...bodyOf(note.body), care: own } })); // prettier-ignore
    if (await keeping.note(notes, '')) go('/ageing');
  };
  return (
    <>
      {record === null ? null : (
        <p>{say('ageing:new.fromBatch', { name: record.name, day: write.date(record.zeroAt), lot: record.lotCode })}</p>
      )}{' '}
      {/* prettier-ignore */}
      {keeping.failed === null ? null : <Notice kind="act">{say('ageing:failed', { why: keeping.failed })}</Notice>}
      <form
        className="piece-form"
        id="new-piece"
        onSubmit={(event) => {
          event.preventDefault();
          void keep();
        }}
      >
        <div className="piece-fields">
          <Field label={say('ageing:new.name')} hint={say('ageing:new.nameHint')} error={errorAt('name')}>
            {(ties) => (
              <input
                {...ties}
                className="field-input"
                maxLength={60}
                autoComplete="off"
                value={draft.name}
                onChange={(event) => put({ name: event.target.value })}
              />
            )}
          </Field>
          <Field label={say('ageing:new.cheese')}>
            {(ties) => (
              <input
                {...ties}
                className="field-input"
                maxLength={80}
                autoComplete="off"
                value={draft.cheese}
                onChange={(event) => put({ cheese: event.target.value })}
              />
            )}
          </Field>
          <DayField label={say('ageing:new.madeOn')} value={draft.madeOn} onChange={(madeOn) => put({ madeOn })} />
          {wrong.includes('madeOn') ? (
            <p className="field-error" role="alert">
              {say('ageing:new.wrong.madeOn')}
            </p>
          ) : null}
          <SelectField
            label={say('ageing:new.style')}
            value={draft.style}
            options={stylesFor(record).map((value) => ({ value, label: say(`ageing:style.${value}`) }))}
            onChange={(style) => {
              setOwn(null);
              put({ style });
            }}
          />
          <SelectField
            label={say('ageing:new.milk')}
            value={draft.treatment === 'uht' ? 'unknown' : draft.treatment}
            options={TREATMENTS.map((value) => ({ value, label: say(`ageing:milk.${value}`) }))}
            onChange={(treatment) => put({ treatment })}
          />
        </div>
        <div className="piece-fields">
          <NumberField
            label={say('ageing:new.count')}
            value={draft.count}
            unit=""
            width={3}
            error={errorAt('count')}
            onChange={(count) => put({ count })}
          />
          <NumberField
            label={say(draft.how === 'each' ? 'ageing:new.massEach' : 'ageing:new.massAll')}
            hint={say('ageing:new.blank')}
            value={draft.mass}
            unit={write.units === 'us' ? 'lb' : 'kg'}
            error={errorAt('mass')}
            onChange={(mass) => put({ mass })}
          />
          <NumberField
            label={say('ageing:new.shelf')}
            hint={say('ageing:new.shelfHint')}
            value={draft.shelf}
            unit=""
            width={3}
            error={errorAt('shelf')}
            onChange={(shelf) => put({ shelf })}
          />
        </div>
        {Number(draft.count) > 1 ? (
          <Choice
            label={say('ageing:new.how')}
            value={draft.how}
            options={(['each', 'together'] as const).map((value) => ({
              value,
              label: say(`ageing:new.hows.${value}`),
            }))}
            onChange={(how) => put({ how })}
          />
        ) : null}
        <Choice
          label={say('ageing:new.shape')}
          value={draft.shape}
          options={SHAPES.map((value) => ({ value, label: say(`ageing:shape.${value}`) }))}
          onChange={(shape) => put({ shape })}
        />
        {SIZES_OF[draft.shape].length === 0 ? null : (
          <div className="piece-fields">
            {SIZES_OF[draft.shape].map((size, i) => (
              <NumberField
                key={size}
                label={say(`ageing:size.${size}`)}
                value={draft.sizes[i] ?? ''}
                unit={write.units === 'us' ? 'in' : 'cm'}
                width={4}
                error={i === 0 ? errorAt('sizes') : undefined}
                onChange={(text) => put({ sizes: withAt(draft.sizes, i, text) })}
              />
            ))}
          </div>
        )}
        {places.length === 0 ? null : (
          <SelectField
            label={say('ageing:new.place')}
            value={draft.place}
            options={places.map(({ placeId, told }) => ({ value: placeId, label: told?.name ?? '' }))}
            onChange={(place) => put({ place })}
          />
        )}
        <section className="care" aria-labelledby="new-care">
          <h2 id="new-care">{say('ageing:care.title')}</h2>
          <ol className="care-stays">
            {(own ?? care).stays.map((stay, i) => (
              <li key={i}>{stayWords({ stay, say, write })}</li>
            ))}
          </ol>
          <p className="piece-source">{say('ageing:source', { source: (own ?? care).source })}</p>
        </section>
      </form>
      {draft.style === 'own' ? <CareForm key="own" care={own ?? care} onKeep={setOwn} onCancel={null} /> : null}
      {adding ? (
        <section className="places" aria-labelledby="new-place">
          <h2 id="new-place">{say('ageing:new.where')}</h2>
          <PlaceForm
            order={places.length + 1}
            onCancel={() => setAdding(false)}
            onKeep={(body) => {
              const streamId = log.newStreamId('place');
              void keeping.note([{ kind: 'placeTold', streamId, body }], '').then((isKept) => {
                if (!isKept) return;
                put({ place: streamId });
                setAdding(false);
              });
            }}
          />
        </section>
      ) : (
        <p>
          <Button onClick={() => setAdding(true)}>{say('ageing:place.add')}</Button>
        </p>
      )}
      <p className="place-acts">
        <button
          type="submit"
          form="new-piece"
          className="button button-main button-desk"
          disabled={adding && places.length === 0}
        >
          <span>{say('ageing:new.keep')}</span>
        </button>
        {draft.style === 'own' ? null : (
          <Button onClick={() => setOwn(null)} hidden={own === null}>
            {say('ageing:new.usual')}
          </Button>
        )}
      </p>
    </>
  );
}

const bodyOf = (body: unknown): object => (typeof body === 'object' && body !== null ? body : {});

function withAt(sizes: NewDraft['sizes'], index: number, text: string): NewDraft['sizes'] {
  const [a, b, c] = sizes.map((size, i) => (i === index ? text : size));
  return [a ?? '', b ?? '', c ?? ''];
}
