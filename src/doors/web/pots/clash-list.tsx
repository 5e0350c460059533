import { useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { FIRST_TOLD, type ClashChoice, type ClashLine } from './clash-lines.ts';
import { MOST_BURNERS } from './use-burners.ts';

/** Where pots get in each other's way, numbered as in the lanes, with what can be done; and how many burners there are. */
export function ClashList({
  clashes,
  isWorking,
  burners,
  hands,
  onBurners,
  onChoice,
}: {
  readonly clashes: readonly ClashLine[];
  /** Not all forecasts are there: nothing is said of what does not clash. */
  readonly isWorking: boolean;
  readonly burners: number | null;
  readonly hands: number;
  readonly onBurners: (count: number | null) => void;
  readonly onChoice: (choice: ClashChoice) => void;
}): ReactNode {
  const { say } = useReader();
  const [all, setAll] = useState(false);
  const shown = all ? clashes : clashes.slice(0, FIRST_TOLD);
  const more = clashes.length - FIRST_TOLD;
  return (
    <section className="pots-clashes" aria-labelledby="pots-clash-title">
      <h2 id="pots-clash-title">{say('pots:clash.title')}</h2>
      {burners === null ? (
        <fieldset className="pots-burners">
          <legend>{say('pots:burners.ask')}</legend>
          {Array.from({ length: MOST_BURNERS }, (_, index) => (
            <VatButton
              key={index}
              className="pots-burner numerals"
              aria-label={say('pots:burners.are', { count: index + 1 })}
              onAct={() => onBurners(index + 1)}
            >
              {index + 1}
            </VatButton>
          ))}
        </fieldset>
      ) : (
        <p className="pots-burners-are">
          {say('pots:burners.are', { count: burners })}
          <VatButton className="pots-quiet" onAct={() => onBurners(null)}>
            {say('pots:burners.change')}
          </VatButton>
        </p>
      )}
      {clashes.length === 0 && isWorking ? null : clashes.length === 0 ? (
        <p>
          {say(burners === null ? 'pots:clash.none' : hands > 1 ? 'pots:clash.noneHands' : 'pots:clash.noneBurners')}
        </p>
      ) : (
        <ol className="pots-clash-list">
          {shown.map((clash) => (
            <li key={clash.number} data-kind={clash.collision.kind}>
              <span className="pots-clash-number numerals">{clash.number}</span>
              <p>
                {clash.text} {clash.decided === null ? null : <strong>{clash.decided}</strong>}
              </p>
              {clash.choices.length === 0 ? null : (
                <div className="pots-choices">
                  {clash.choices.map((choice) => (
                    <VatButton key={choice.label} className="vat-small" onAct={() => onChoice(choice)}>
                      {choice.label}
                    </VatButton>
                  ))}
                </div>
              )}
            </li>
          ))}
        </ol>
      )}
      {more > 0 ? (
        <VatButton className="pots-quiet" aria-expanded={all} onAct={() => setAll(!all)}>
          {all ? say('pots:clash.fewer') : say('pots:clash.more', { count: more })}
        </VatButton>
      ) : null}
      {clashes.length === 0 ? null : <p className="pots-small">{say('pots:clash.likely')}</p>}
    </section>
  );
}
