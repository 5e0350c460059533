import { useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { handOutSheet } from '../../../exchange/paper/hand-out.ts';
import { paperDocument } from '../../../exchange/paper/html.ts';
import { makeCalendar } from '../../../exchange/share/make-calendar.ts';
import { makeCsv } from '../../../exchange/share/make-csv.ts';
import { fileName, makeFileText } from '../../../exchange/share/make-file.ts';
import { questionAddress } from '../../../exchange/share/question-link.ts';
import { recipeOf, recipeText } from '../../../exchange/share/recipe.ts';
import type { Make } from '../../../make/make.ts';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { isBundled } from '../makes/make-shelf.ts';
import { useWholeMakes } from '../makes/use-makes.ts';
import { leftDraft } from '../plan/use-draft.ts';
import { usePlanning } from '../plan/use-planning.ts';
import { wallInstant } from '../plan/wall-clock.ts';
import { useTold } from '../paper/use-told.ts';
import { saveFile } from './save-file.ts';
import { shareSheet } from './share-sheet.ts';
import './share.css';

/** A make handed on: as a file, a hand-out, a recipe, a table, a calendar, a link. */
export function ShareScreen({ makeId }: { readonly makeId: string }): ReactNode {
  const { say } = useReader();
  const { makes, failed } = useWholeMakes(useMemo(() => [makeId], [makeId]));
  const [make] = makes;
  if (make !== undefined) return <ShareMake key={make.id} make={make} />;
  return (
    <>
      <h1>{say('share:makes')}</h1>
      <p>{failed === null && isBundled(makeId) ? say('paper:working') : say('share:noMake')}</p>
    </>
  );
}

/** Ways to hand a make on: what it is, and the text of its file. */
interface Way {
  readonly id: 'file' | 'handOut' | 'recipe' | 'steps' | 'calendar';
  readonly name: string;
  readonly type: string;
  /** Null while it cannot be written yet. */
  readonly text: (() => string) | null;
}

const BOM = '\uFEFF'; // spreadsheets take a table without it for another alphabet

/** The card of the makes place and the place of its own. */
export function ShareMake({ make }: { readonly make: Make }): ReactNode {
  const reader = useReader();
  const { say, write, language, book } = reader;
  const now = useNow(60_000);
  const [told, setTold] = useState<string | null>(null);
  const draft = useMemo(() => ({ ...leftDraft(write.units), makeId: make.id }), [write.units, make.id]);
  const { plan, planned, forecast } = usePlanning({ draft, make, units: write.units, now, book });
  const inBoth = useTold({ isInBoth: true });
  const startAt = wallInstant(draft.clock) ?? now;
  const sheet = plan === null || forecast === null ? null : shareSheet({ plan, forecast, startAt, now, reader });
  const address = planned.answers === null || !isBundled(make.id) ? null : questionAddress({ base: location.origin, question: { makeId: make.id, answers: planned.answers } }); // prettier-ignore
  const handOut = (): string =>
    plan === null || forecast === null ? '' : paperDocument({ sheets: [handOutSheet({ plan, forecast, notes: address === null ? {} : { address }, told: inBoth })], language }); // prettier-ignore
  const ways: readonly Way[] = [
    { id: 'file', name: `${make.id}.make.json`, type: 'application/json', text: () => makeFileText(make) },
    { id: 'handOut', name: `${make.id}.html`, type: 'text/html', text: sheet === null ? null : handOut },
    { id: 'recipe', name: `${make.id}.recipe.json`, type: 'application/ld+json', text: sheet === null ? null : () => recipeText(recipeOf({ sheet, told: inBoth, language })) },
    { id: 'steps', name: `${make.id}.csv`, type: 'text/csv', text: plan === null ? null : () => `${BOM}${makeCsv(plan)}` },
    { id: 'calendar', name: `${fileName(make.id, draft.clock.day)}.ics`, type: 'text/calendar', text: sheet === null ? null : () => makeCalendar({ sheet, told: inBoth, id: fileName(make.id, draft.clock.day), madeAt: now }) },
  ]; // prettier-ignore
  const save = (way: Way): void => {
    if (way.text === null) return;
    saveFile({ name: way.name, type: way.type, text: way.text() });
    setTold(say('share:saved', { file: way.name }));
  };
  return (
    <article className="share">
      <header>
        <h1>{say('share:title', { name: book.make(make).name })}</h1>
        <p>{say('share:lead')}</p>
        <p className="share-small">
          {say('share:milk')}{' '}
          <strong className="pair">{plan === null ? '' : write.litres(plan.setup.milk.volumeL).text}</strong>{' '}
          <Link href="/plan">{say('plan:title')}</Link>
        </p>
      </header>
      {planned.problems.length > 0 ? <Notice kind="caution">{say('paper:none.plan')}</Notice> : null}
      <ul className="share-ways">
        {ways.map((way) => (
          <li key={way.id}>
            <div>
              <h2>{say(`share:${way.id}`)}</h2>
              <p>{say(`share:${way.id}About`, { day: write.day(startAt) })}</p>
            </div>
            <Button
              kind={way.id === 'file' ? 'main' : 'second'}
              disabled={way.text === null}
              aria-label={say('share:saveOf', { what: say(`share:${way.id}`) })}
              onClick={() => save(way)}
            >
              {say('share:save')}
            </Button>
          </li>
        ))}
        {address === null ? null : (
          <li>
            <div>
              <h2>{say('share:link')}</h2>
              <p>{say('share:linkAbout')}</p>
              <p className="share-address">{address}</p>
            </div>
            <Button
              kind="second"
              // Over plain HTTP there is no clipboard; the address stands there to be copied by hand.
              disabled={!('clipboard' in navigator)}
              onClick={() => void navigator.clipboard.writeText(address).then(() => setTold(say('share:copied')))}
            >
              {say('share:copy')}
            </Button>
          </li>
        )}
      </ul>
      <p role="status" className="share-told">
        {told}
      </p>
      <p>
        <Link href="/share">{say('share:take.title')}</Link> · <Link href="/makes">{say('share:makes')}</Link>
      </p>
    </article>
  );
}
