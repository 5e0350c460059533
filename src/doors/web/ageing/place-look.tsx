import { useState, type ReactNode } from 'react';
import type { KeepingBody } from '../../../record/keeping-events.ts';
import type { PlaceRecord } from '../../../record/place-record.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { AirFields, airOf, BLANK_AIR, type AirDraft } from './air-fields.tsx';

/** A look into a place: what the meter or thermometer shows, or what hangs under the lid. */
export function PlaceLook({
  place,
  onKeep,
  onCancel,
}: {
  readonly place: PlaceRecord;
  readonly onKeep: (body: KeepingBody<'placeChecked'>) => void;
  readonly onCancel: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const isBox = place.told?.kind === 'box' || place.box !== null;
  const [air, setAir] = useState<AirDraft>({ ...BLANK_AIR, ...place.box });
  const [isWrong, setWrong] = useState(false);
  return (
    <form
      className="place-form"
      onSubmit={(event) => {
        event.preventDefault();
        const read = airOf({ draft: air, isBox, units: write.units });
        if (read === null) setWrong(true);
        else onKeep(read);
      }}
    >
      <AirFields draft={air} isBox={isBox} withDroplets isWrong={isWrong} onChange={setAir} />
      <p className="place-acts">
        <button type="submit" className="button button-main button-desk">
          <span>{say('ageing:place.keep')}</span>
        </button>
        <Button onClick={onCancel}>{say('ageing:cancel')}</Button>
      </p>
    </form>
  );
}
