import { useState, type ReactNode } from 'react';
import type { KeptThings } from '../../../record/kept-things.ts';
import type { PlaceRecord } from '../../../record/place-record.ts';
import { useReader } from '../device/reader.tsx';
import { May, useMay } from '../log/may.tsx';
import type { Note } from '../log/event-log.ts';
import { Button } from '../look/button.tsx';
import { PlaceForm } from './place-form.tsx';
import { PlaceLook } from './place-look.tsx';
import { placeAdvice, placeLine } from './place-words.ts';

/** The places where cheese lies, each with its air as it was last read or seen. */
export function PlacesPart({
  kept,
  newStreamId,
  onNote,
}: {
  readonly kept: KeptThings;
  readonly newStreamId: () => string;
  readonly onNote: (notes: readonly Omit<Note, 'kinds'>[], words: string) => void;
}): ReactNode {
  const { say } = useReader();
  const [adding, setAdding] = useState(false);
  const places = [...kept.places.values()].filter(({ isClosed }) => !isClosed);
  return (
    <section className="places" aria-labelledby="places-title">
      <h2 id="places-title">{say('ageing:place.title')}</h2>
      <ul className="places-list">
        {places.map((place) => (
          <Place key={place.placeId} place={place} kept={kept} onNote={onNote} />
        ))}
      </ul>
      {adding ? (
        <PlaceForm
          order={places.length + 1}
          onCancel={() => setAdding(false)}
          onKeep={(body) => {
            onNote(
              [{ kind: 'placeTold', streamId: newStreamId(), body }],
              say('ageing:place.kept', { name: body.name }),
            );
            setAdding(false);
          }}
        />
      ) : (
        <May note="placeTold">
          <Button onClick={() => setAdding(true)}>{say('ageing:place.add')}</Button>
        </May>
      )}
    </section>
  );
}

function Place({
  place,
  kept,
  onNote,
}: {
  readonly place: PlaceRecord;
  readonly kept: KeptThings;
  readonly onNote: (notes: readonly Omit<Note, 'kinds'>[], words: string) => void;
}): ReactNode {
  const { say, write } = useReader();
  const may = useMay();
  const [looking, setLooking] = useState(false);
  const here = [...kept.pieces.values()].filter(({ placeId, goneAt }) => placeId === place.placeId && goneAt === null);
  const wanted = here.flatMap(({ care }) => care?.stays.at(-1)?.humidityPercent ?? []);
  const advice = placeAdvice({ place, wanted });
  const name = place.told?.name ?? '';
  const read = place.checks.at(-1);
  return (
    <li className="place">
      <div className="place-words">
        <h3>{name}</h3>
        <p>{placeLine({ place, say, write })}</p>
        {read === undefined ? null : (
          <p className="place-when">{say('ageing:place.read', { day: write.day(read.at) })}</p>
        )}
        {advice === null ? null : <p className="place-advice">{say(`ageing:box.${advice}`)}</p>}
      </div>
      {looking ? (
        <PlaceLook
          place={place}
          onCancel={() => setLooking(false)}
          onKeep={(body) => {
            onNote([{ kind: 'placeChecked', streamId: place.placeId, body }], say('ageing:place.looked', { name }));
            setLooking(false);
          }}
        />
      ) : (
        <p className="place-acts">
          <May note="placeChecked" of={place.placeId}>
            <Button kind="second" onClick={() => setLooking(true)}>
              {say('ageing:place.look')}
            </Button>
          </May>
          {here.length === 0 && may.note('placeClosed', place.placeId) ? (
            <Button
              onClick={() =>
                onNote(
                  [{ kind: 'placeClosed', streamId: place.placeId, body: {} }],
                  say('ageing:place.closed', { name }),
                )
              }
            >
              {say('ageing:place.close')}
            </Button>
          ) : null}
        </p>
      )}
    </li>
  );
}
