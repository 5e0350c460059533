import { useState, type ReactNode } from 'react';
import type { Mishap } from '../../../make/mishaps.ts';
import type { PlannedStep } from '../../../make/plan.ts';
import { useReader } from '../device/reader.tsx';
import { MINUTES, SHARES, temperatureTiles, type ToldDraft } from './told-draft.ts';
import { VatButton } from './vat-button.tsx';

/** The one or two questions of a mishap, as tiles; nothing is chosen beforehand. */
export function ToldQuestions({
  mishap,
  draft,
  step,
  ingredients,
  taken,
  onDraft,
}: {
  readonly mishap: Mishap;
  readonly draft: ToldDraft;
  readonly step: PlannedStep | null;
  readonly ingredients: readonly string[];
  /** What is taken for granted until it is answered. */
  readonly taken: 'minutes' | 'share' | null;
  readonly onDraft: (draft: ToldDraft) => void;
}): ReactNode {
  const { say, write } = useReader();
  return (
    <div className="told-questions">
      {mishap.asks.map((question) => {
        switch (question) {
          case 'temperature':
            return <Temperatures key={question} isHot={mishap.id !== 'tooCold'} step={step} draft={draft} onDraft={onDraft} />; // prettier-ignore
          case 'minutes':
            return (
              <Tiles
                key={question}
                title={say('vat:wrong.howLong')}
                note={taken === 'minutes' ? say('vat:wrong.takenMinutes', { minutes: write.duration(10) }) : null}
                tiles={MINUTES.map((minutes) => ({ text: write.duration(minutes), is: draft.minutes === minutes, on: () => onDraft({ ...draft, minutes }) }))} // prettier-ignore
              />
            );
          case 'ingredient':
            return (
              <Tiles
                key={question}
                title={say('vat:wrong.which')}
                note={null}
                tiles={ingredients.map((ingredient) => ({ text: say(`record:ingredient.${ingredient}`), is: draft.ingredient === ingredient || ingredients.length === 1, on: () => onDraft({ ...draft, ingredient }) }))} // prettier-ignore
              />
            );
          case 'share':
            return (
              <Tiles
                key={question}
                title={say('vat:wrong.howMuch')}
                note={taken === 'share' ? say('vat:wrong.takenShare', { share: say('vat:amounts.half') }) : null}
                tiles={SHARES.map(({ name, share }) => ({ text: say(`vat:amounts.${name}`), is: draft.fractionOfPlan === share, on: () => onDraft({ ...draft, fractionOfPlan: share }) }))} // prettier-ignore
              />
            );
        }
      })}
    </div>
  );
}

function Temperatures({
  isHot,
  step,
  draft,
  onDraft,
}: {
  readonly isHot: boolean;
  readonly step: PlannedStep | null;
  readonly draft: ToldDraft;
  readonly onDraft: (draft: ToldDraft) => void;
}): ReactNode {
  const { say, write } = useReader();
  const [page, setPage] = useState(0);
  const tiles = temperatureTiles({ step, isHot, units: write.units, page });
  const further = { text: say(isHot ? 'vat:wrong.hotter' : 'vat:wrong.colder'), is: null, on: () => setPage(page + 1) };
  return (
    <Tiles
      title={say('vat:wrong.howHot')}
      note={null}
      tiles={[
        ...tiles.map((temperatureC) => ({
          text: write.degrees(temperatureC).text,
          is: draft.temperatureC === temperatureC,
          on: () => onDraft({ ...draft, temperatureC }),
        })),
        further,
      ]}
    />
  );
}

interface Tile {
  readonly text: string;
  /** Null where it is no answer. */
  readonly is: boolean | null;
  readonly on: () => void;
}

/** A question with its answers; once answered it takes one line, with the way back to the others. */
function Tiles({
  title,
  note,
  tiles,
}: {
  readonly title: string;
  readonly note: string | null;
  readonly tiles: readonly Tile[];
}): ReactNode {
  // prettier-ignore
  const { say } = useReader();
  const [isOpen, setOpen] = useState(false);
  const answer = tiles.find(({ is }) => is === true);
  const isFolded = answer !== undefined && !isOpen && tiles.length > FEW;
  const shown = isFolded ? [answer] : tiles;
  return (
    <fieldset className="told-question">
      <legend>
        {title} {note === null ? null : <span className="vat-small-print">{note}</span>}
      </legend>
      <div className="told-tiles">
        {shown.map(({ text, is, on }) => (
          <VatButton
            key={text}
            className="told-tile"
            {...(is === null ? {} : { 'aria-pressed': is })}
            onAct={() => {
              if (is !== null) setOpen(false);
              on();
            }}
          >
            {text}
          </VatButton>
        ))}
        {isFolded ? (
          <VatButton className="told-tile told-other" onAct={() => setOpen(true)}>
            {say('vat:wrong.another')}
          </VatButton>
        ) : null}
      </div>
    </fieldset>
  );
}

const FEW = 4;
