import { useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Choice } from '../look/choice.tsx';
import { NumberField } from '../look/number-field.tsx';
import type { PieceFormInput } from './piece-forms.tsx';
import { splitNotes } from './split-notes.ts';

const PARTS = ['2', '4', '8', 'other'] as const;

/** Halves, quarters, portions: each a cheese of its own from then on, with the whole as its past. */
export function SplitForm({ piece, today, newStreamId, onNote, onBack }: PieceFormInput): ReactNode {
  const { say, write } = useReader();
  const [parts, setParts] = useState<(typeof PARTS)[number]>('2');
  const [other, setOther] = useState('');
  const [masses, setMasses] = useState<readonly string[]>([]);
  const [isWrong, setWrong] = useState(false);
  const count = parts === 'other' ? Number(other) : Number(parts);
  const shown = Number.isInteger(count) && count >= 2 && count <= MOST_SHOWN ? count : 0;
  const keep = (): void => {
    const read = splitNotes({ piece, count, masses, today, units: write.units, say, newStreamId });
    if (read === null) return setWrong(true);
    onNote(read, say('ageing:noted.split', { piece: piece.made?.name ?? '', count }));
  };
  return (
    <form
      className="piece-form"
      aria-label={say('ageing:act.split')}
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <h2>{say('ageing:act.split')}</h2>
      <p>{say('ageing:split.about')}</p>
      <Choice
        label={say('ageing:split.parts')}
        value={parts}
        options={PARTS.map((value) => ({ value, label: value === 'other' ? say('ageing:split.other') : value }))}
        onChange={setParts}
      />
      {parts === 'other' ? (
        <NumberField label={say('ageing:split.howMany')} value={other} unit="" width={3} onChange={setOther} />
      ) : null}
      <div className="piece-fields">
        {Array.from({ length: shown }, (_, i) => (
          <NumberField
            key={i}
            label={say('ageing:split.mass', { nth: i + 1 })}
            value={masses[i] ?? ''}
            unit={write.units === 'us' ? 'lb' : 'kg'}
            width={5}
            onChange={(text) =>
              setMasses(
                Array.from({ length: Math.max(shown, masses.length) }, (_each, j) =>
                  j === i ? text : (masses[j] ?? ''),
                ),
              )
            }
          />
        ))}
      </div>
      {isWrong ? (
        <p className="field-error" role="alert">
          {say('ageing:split.wrong')}
        </p>
      ) : null}
      <p className="place-acts">
        <button type="submit" className="button button-main button-desk">
          <span>{say('ageing:split.keep')}</span>
        </button>
        <Button onClick={onBack}>{say('ageing:cancel')}</Button>
      </p>
    </form>
  );
}
const MOST_SHOWN = 24; // our own choice: nobody weighs more than these one by one; the rest go unweighed
