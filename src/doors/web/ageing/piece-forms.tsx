import { useState, type ReactNode } from 'react';
import type { KeptThings } from '../../../record/kept-things.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import { useReader } from '../device/reader.tsx';
import type { Note } from '../log/event-log.ts';
import { Button } from '../look/button.tsx';
import { Choice } from '../look/choice.tsx';
import { Field } from '../look/field.tsx';
import { NumberField } from '../look/number-field.tsx';
import { SelectField } from '../look/select-field.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { GrowthKey } from './growth-key.tsx';
import type { PieceAct } from './piece-act-kinds.ts';
import { PiecePad } from './piece-pad.tsx';
import { SplitForm } from './split-form.tsx';

export interface PieceFormInput {
  readonly piece: PieceRecord;
  readonly kept: KeptThings;
  readonly today: number;
  readonly newStreamId: (type: 'piece') => string;
  readonly onNote: (notes: readonly Omit<Note, 'kinds'>[], words: string) => void;
  readonly onBack: () => void;
}

/** The page of one act at one cheese. */
export function PieceForm({ act, ...input }: PieceFormInput & { readonly act: PieceAct }): ReactNode {
  const { say, write } = useReader();
  const { piece, onNote, onBack } = input;
  const name = piece.made?.name ?? '';
  const one = (kind: string, body: object): readonly Omit<Note, 'kinds'>[] => [{ kind, streamId: piece.pieceId, body }];
  switch (act) {
    case 'weigh':
      return <PiecePad piece={piece} onBack={onBack} onWeighed={(massKg) => onNote(one('pieceWeighed', { massKg }), say('ageing:noted.weigh', { piece: name, mass: write.kilograms(massKg).text }))} />; // prettier-ignore
    case 'taste':
      return <TasteForm onBack={onBack} onTasted={(body) => onNote(one('pieceTasted', body), say('ageing:noted.taste', { piece: name }))} />; // prettier-ignore
    case 'grow':
      return <GrowthKey piece={piece} onBack={onBack} onLooked={(body) => onNote(one('pieceLooked', body), say('ageing:noted.grow', { piece: name }))} />; // prettier-ignore
    case 'move':
      return <MoveForm {...input} onMoved={(body, place) => onNote(one('pieceMoved', body), say('ageing:noted.move', { piece: name, place }))} />; // prettier-ignore
    case 'wax':
      return <OneOf title={say('ageing:act.wax')} options={(['wax', 'coating', 'oil', 'cloth'] as const).map((coat) => ({ value: coat, label: say(`ageing:coat.${coat}`) }))} onBack={onBack} onPick={(coat) => onNote(one('pieceWaxed', { coat }), say('ageing:noted.wax', { piece: name }))} />; // prettier-ignore
    case 'pack':
      return <OneOf title={say('ageing:act.pack')} options={(['vacuum', 'paper', 'foil', 'film', 'liquid'] as const).map((how) => ({ value: how, label: say(`ageing:how.${how}`) }))} caution={say('ageing:packCaution')} onBack={onBack} onPick={(how) => onNote(one('piecePacked', { how }), say('ageing:noted.pack', { piece: name }))} />; // prettier-ignore
    case 'split':
      return <SplitForm {...input} />;
    case 'end':
      return <EndForm onBack={onBack} onEnded={(body) => onNote(one('pieceEnded', body), say('ageing:noted.end', { piece: name }))} />; // prettier-ignore
  }
}

/** A few big answers, one tap. */
function OneOf<Value extends string>({
  title,
  options,
  caution,
  onPick,
  onBack,
}: {
  readonly title: string;
  readonly options: readonly { readonly value: Value; readonly label: string }[];
  readonly caution?: string;
  readonly onPick: (value: Value) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  return (
    <section className="piece-form" aria-label={title}>
      <h2>{title}</h2>
      {caution === undefined ? null : <p className="piece-limits">{caution}</p>}
      <div className="piece-row">
        {options.map(({ value, label }) => (
          <VatButton key={value} className="vat-lesser" keeps onAct={() => onPick(value)}>
            {label}
          </VatButton>
        ))}
      </div>
      <Button onClick={onBack}>{say('ageing:cancel')}</Button>
    </section>
  );
}

function TasteForm({
  onTasted,
  onBack,
}: {
  readonly onTasted: (body: { words: string; verdict: 'wait' | 'ready' | 'past' }) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  const [words, setWords] = useState('');
  return (
    <section className="piece-form" aria-label={say('ageing:act.taste')}>
      <h2>{say('ageing:act.taste')}</h2>
      <p className="piece-limits">{say('ageing:taste.caution')}</p>
      <Field label={say('ageing:taste.words')}>
        {(ties) => (
          <textarea
            {...ties}
            className="field-input piece-words"
            rows={3}
            maxLength={2000}
            value={words}
            onChange={(event) => setWords(event.target.value)}
          />
        )}
      </Field>
      <div className="piece-row">
        {(['wait', 'ready', 'past'] as const).map((verdict) => (
          <VatButton
            key={verdict}
            className="vat-lesser"
            keeps
            onAct={() => onTasted({ words: words.trim(), verdict })}
          >
            {say(`ageing:verdict.${verdict}`)}
          </VatButton>
        ))}
      </div>
      <Button onClick={onBack}>{say('ageing:cancel')}</Button>
    </section>
  );
}

function MoveForm({
  piece,
  kept,
  onMoved,
  onBack,
}: PieceFormInput & { readonly onMoved: (body: { place: string; shelf?: number }, place: string) => void }): ReactNode {
  const { say } = useReader();
  const places = [...kept.places.values()].filter(({ isClosed }) => !isClosed);
  const [place, setPlace] = useState(
    places.find(({ placeId }) => placeId !== piece.placeId)?.placeId ?? piece.placeId ?? '',
  );
  const [shelf, setShelf] = useState('');
  const number = Number(shelf);
  const isWrong = shelf !== '' && !(Number.isInteger(number) && number >= 1 && number <= 999);
  return (
    <form
      className="piece-form"
      aria-label={say('ageing:act.move')}
      onSubmit={(event) => {
        event.preventDefault();
        if (place !== '' && !isWrong)
          onMoved({ place, ...(shelf === '' ? {} : { shelf: number }) }, kept.places.get(place)?.told?.name ?? '');
      }}
    >
      <h2>{say('ageing:act.move')}</h2>
      {places.length === 0 ? (
        <p>{say('ageing:move.noPlace')}</p>
      ) : (
        <div className="piece-fields">
          <SelectField
            label={say('ageing:move.to')}
            value={place}
            options={places.map(({ placeId, told }) => ({ value: placeId, label: told?.name ?? '' }))}
            onChange={setPlace}
          />
          <NumberField
            label={say('ageing:move.shelf')}
            hint={say('ageing:move.shelfHint')}
            value={shelf}
            unit=""
            width={3}
            error={isWrong ? say('ageing:move.wrongShelf') : undefined}
            onChange={setShelf}
          />
        </div>
      )}
      <p className="place-acts">
        {places.length === 0 ? null : (
          <button type="submit" className="button button-main button-desk">
            <span>{say('ageing:move.here')}</span>
          </button>
        )}
        <Button onClick={onBack}>{say('ageing:cancel')}</Button>
      </p>
    </form>
  );
}

type Way = 'eaten' | 'given' | 'sold' | 'thrown-away';

function EndForm({
  onEnded,
  onBack,
}: {
  readonly onEnded: (body: { way: Way; to?: string; because?: string }) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  const [way, setWay] = useState<Way>('eaten');
  const [words, setWords] = useState('');
  const told = words.trim();
  return (
    <form
      className="piece-form"
      aria-label={say('ageing:act.end')}
      onSubmit={(event) => {
        event.preventDefault();
        onEnded({ way, ...(told === '' ? {} : way === 'thrown-away' ? { because: told } : { to: told }) });
      }}
    >
      <h2>{say('ageing:act.end')}</h2>
      <Choice
        label={say('ageing:end.way')}
        value={way}
        options={(['eaten', 'given', 'sold', 'thrown-away'] as const).map((value) => ({
          value,
          label: say(`ageing:end.${value}`),
        }))}
        onChange={setWay}
      />
      {way === 'eaten' ? null : (
        <Field label={say(way === 'thrown-away' ? 'ageing:end.because' : 'ageing:end.to')}>
          {(ties) => (
            <input
              {...ties}
              className="field-input piece-words"
              maxLength={120}
              autoComplete="off"
              value={words}
              onChange={(event) => setWords(event.target.value)}
            />
          )}
        </Field>
      )}
      <p className="place-acts">
        <button type="submit" className="button button-main button-desk">
          <span>{say('ageing:end.keep')}</span>
        </button>
        <Button onClick={onBack}>{say('ageing:cancel')}</Button>
      </p>
    </form>
  );
}
