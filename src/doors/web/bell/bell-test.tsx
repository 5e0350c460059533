import { useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { speaker } from './sounds.ts';
import { louder } from './volume.ts';
import './bell.css';

type Stage = 'ready' | 'asked' | 'loudest' | 'no';

/** How long the first tap may take to open the sound before it is said that none came. */
const OPEN_MS = 300;

/** The bell, tried at the vat beside the running water: heard, louder, or a second clock instead. */
export function BellTest({
  isDone,
  onHeard,
  calendar,
  sheetHref,
}: {
  readonly isDone: boolean;
  readonly onHeard: () => void;
  /** The text of the calendar file; null while there is no forecast. */
  readonly calendar: (() => { readonly text: string; readonly name: string }) | null;
  readonly sheetHref: string;
}): ReactNode {
  const { say } = useReader();
  const [stage, setStage] = useState<Stage>('ready');
  const [isSilent, setSilent] = useState(false);
  const play = async (): Promise<void> => {
    await Promise.race([speaker.arm(), new Promise((resolve) => setTimeout(resolve, OPEN_MS))]);
    setSilent(speaker.state !== 'armed');
    speaker.due();
  };
  const ask = (): void => {
    setStage('asked');
    void play();
  };
  const moreLoud = (): void => {
    setStage(louder() ? 'asked' : 'loudest');
    void play();
  };
  return (
    <div className="bell-test">
      <VatButton className="bell-play" onAct={ask}>
        {say(stage === 'ready' && !isDone ? 'bell:test.play' : 'bell:test.again')}
      </VatButton>
      {stage === 'ready' || (isDone && stage !== 'no') ? null : (
        <>
          <p role="status">
            {isSilent ? `${say('bell:test.silent')} ` : ''}
            {stage === 'loudest' ? `${say('bell:test.loudest')} ` : ''}
            {say('bell:test.ask')}
          </p>
          <div className="bell-answers">
            <VatButton className="bell-answer" onAct={onHeard}>
              {say('bell:test.yes')}
            </VatButton>
            <VatButton className="bell-answer" onAct={moreLoud}>
              {say('bell:test.louder')}
            </VatButton>
            <VatButton className="bell-answer" onAct={() => setStage('no')}>
              {say('bell:test.no')}
            </VatButton>
          </div>
        </>
      )}
      {stage === 'no' ? <SecondClock calendar={calendar} sheetHref={sheetHref} /> : null}
      <Messages />
    </div>
  );
}

/** Another bell for who cannot hear this one: paper, or the phone's own calendar. */
function SecondClock({
  calendar,
  sheetHref,
}: Pick<Parameters<typeof BellTest>[0], 'calendar' | 'sheetHref'>): ReactNode {
  // prettier-ignore
  const { say } = useReader();
  return (
    <>
      <p>
        <strong>{say('bell:test.noTitle')}</strong> {say('bell:test.calendarNote')}
      </p>
      <div className="bell-answers">
        <Link className="vat-button bell-answer" href={sheetHref}>
          {say('bell:test.print')}
        </Link>
        {calendar === null ? null : (
          <VatButton className="bell-answer" onAct={() => saveCalendar(calendar())}>
            {say('bell:test.calendar')}
          </VatButton>
        )}
      </div>
    </>
  );
}

/** Messages of the system while the page is out of sight: asked for by a tap and never otherwise. */
function Messages(): ReactNode {
  const { say } = useReader();
  const isThere = 'Notification' in globalThis;
  const [state, setState] = useState(isThere ? Notification.permission : 'denied');
  if (!isThere) return null;
  if (state !== 'default') return <p className="vat-small-print">{say(state === 'granted' ? 'bell:test.notifyOn' : 'bell:test.notifyOff')}</p>; // prettier-ignore
  return (
    <VatButton className="bell-answer" onAct={() => void Notification.requestPermission().then(setState)}>
      {say('bell:test.notify')}
    </VatButton>
  );
}

function saveCalendar({ text, name }: { readonly text: string; readonly name: string }): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'text/calendar' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser reads the address after the click has returned.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
