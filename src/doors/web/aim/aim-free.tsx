import { useState, type ReactNode } from 'react';
import { nameOf, valueText, type Telling } from '../../../exchange/solve/solve-words.ts';
import { START } from '../../../forecast/question.ts';
import type { Mover } from '../../../forecast/movers.ts';
import { Button } from '../look/button.tsx';
import { offered } from './worth-freeing.ts';

const MOST_FREE = 4;

/** What may change for it: the things that move the aim most stand first, and one or two are chosen already. */
export function AimFree({
  movers,
  free,
  offersStart,
  telling,
  onChoose,
}: {
  readonly movers: readonly Mover[];
  readonly free: readonly string[];
  /** The start of the whole make, where it must be done by some time. */
  readonly offersStart: boolean;
  readonly telling: Telling;
  readonly onChoose: (free: readonly string[]) => void;
}): ReactNode {
  const { say, adjustables } = telling;
  const [all, setAll] = useState(false);
  const shown = offered({ movers, chosen: free, all });
  if (movers.length === 0) return null;
  const ids = [...(offersStart ? [START] : []), ...shown.map(({ id }) => id)];
  const toggle = (id: string): void => onChoose(free.includes(id) ? free.filter((one) => one !== id) : [...free, id]);
  const label = (id: string): string => {
    const adjustable = adjustables.find((one) => one.id === id);
    const name = nameOf(id, telling);
    if (adjustable === undefined)
      return say('solve:card.freeNow', { name, now: valueText({ ...telling, id, value: 0 }) });
    if (adjustable.now === null) return say('solve:card.freeDecided', { name: name.replace(/ for$/, '') });
    return say('solve:card.freeNow', { name, now: valueText({ ...telling, id, value: adjustable.now }) });
  };
  return (
    <fieldset className="aim-free">
      <legend>{say('solve:card.free')}</legend>
      {ids.map((id) => (
        <label key={id} className="aim-free-item">
          <input
            type="checkbox"
            checked={free.includes(id)}
            disabled={!free.includes(id) && free.length >= MOST_FREE}
            onChange={() => toggle(id)}
          />
          <span>{label(id)}</span>
        </label>
      ))}
      {all || shown.length === movers.length ? null : (
        <Button kind="quiet" onClick={() => setAll(true)}>
          {say('solve:card.more')}
        </Button>
      )}
    </fieldset>
  );
}
