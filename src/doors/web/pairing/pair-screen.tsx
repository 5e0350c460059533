import { useEffect, useState, type FormEvent, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import { Field } from '../look/field.tsx';
import { Notice } from '../look/notice.tsx';
import { askToPair, type Paired } from './ask-server.ts';
import { CODE_DIGITS, codeInHalves, codeInHash, digitsOf, kindOfDevice, problemOf } from './pairing-view.ts';
import './pairing.css';

const KEYS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '', '0', 'back'] as const;

/** A device asks to be let in: what it is called, and the code that the sharing machine shows. */
export function PairScreen({
  onAlone,
}: {
  /** Goes on without the server, where the page came here by itself. */
  readonly onAlone?: () => void;
}): ReactNode {
  const { say } = useReader();
  const { log, held } = useLog();
  const [fromPicture] = useState(() => codeInHash(location.hash));
  const [code, setCode] = useState(fromPicture);
  const [name, setName] = useState(() => say(`pairing:pair.names.${kindOfDevice(innerWidth)}`));
  const [paired, setPaired] = useState<Paired | null>(null);
  const [isAsking, setAsking] = useState(false);
  // The code stays in nobody's history.
  useEffect(() => {
    if (location.hash !== '') history.replaceState(null, '', location.pathname);
  }, []);
  const type = (typed: string): void => {
    setCode(digitsOf(typed));
    setPaired(null);
  };
  const ask = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    setAsking(true);
    const answer = await askToPair({ code, name: name.trim(), logDevice: held.deviceId });
    setPaired(answer);
    setAsking(false);
    if (answer.is === 'paired') await log.synchroniseNow();
    else if (answer.is === 'wrong' || answer.is === 'dead') setCode('');
  };
  const problem = problemOf(paired, say);
  const isReady = code.length === CODE_DIGITS && name.trim() !== '' && !isAsking;
  if (paired?.is === 'paired') return <Done role={paired.role} />;
  return (
    <main className="pairing">
      <title>{say('pairing:pair.title')}</title>
      <p className="pair-house">{say('app:name')}</p>
      <h1>{say('pairing:pair.title')}</h1>
      <p>{say('pairing:pair.lead')}</p>
      {held.access === 'none' || held.access === 'maker' ? null : (
        <p>{say('pairing:pair.already', { role: say(`pairing:roles.${held.access}.as`) })}</p>
      )}
      <form className="pair-form" onSubmit={(event) => void ask(event)}>
        <Field label={say('pairing:pair.name')} hint={say('pairing:pair.nameHint')}>
          {(ties) => (
            <input
              {...ties}
              className="field-input pair-name"
              maxLength={80}
              autoComplete="off"
              value={name}
              onChange={(event) => setName(event.target.value)}
            />
          )}
        </Field>
        {fromPicture !== '' && code === fromPicture ? (
          <p>
            {say('pairing:pair.fromPicture')} <strong className="numerals pair-digits">{codeInHalves(code)}</strong>
          </p>
        ) : (
          <>
            <Field label={say('pairing:pair.code')} {...(problem === null ? {} : { error: problem })}>
              {(ties) => (
                <input
                  {...ties}
                  className="field-input numerals pair-code"
                  inputMode="none"
                  autoComplete="one-time-code"
                  value={codeInHalves(code)}
                  onChange={(event) => type(event.target.value)}
                />
              )}
            </Field>
            <div className="pair-keys" role="group" aria-label={say('pairing:pair.keys')}>
              {KEYS.map((key) =>
                key === '' ? (
                  <span key="blank" />
                ) : (
                  <Button
                    key={key}
                    className={key === 'back' ? 'pair-key pair-back' : 'pair-key numerals'}
                    onClick={() => type(key === 'back' ? code.slice(0, -1) : code + key)}
                    {...(key === 'back' ? { 'aria-label': say('pairing:pair.back') } : {})}
                  >
                    {key === 'back' ? say('pairing:pair.delete') : key}
                  </Button>
                ),
              )}
            </div>
          </>
        )}
        {fromPicture !== '' && code === fromPicture && problem !== null ? (
          <Notice kind="caution">{problem}</Notice>
        ) : null}
        <Button type="submit" kind={isReady ? 'main' : 'plain'} className="pair-do" disabled={!isReady}>
          {say(isAsking ? 'pairing:pair.asking' : 'pairing:pair.do')}
        </Button>
      </form>
      {onAlone === undefined ? null : (
        <p className="pair-alone">
          {say('pairing:pair.alone')}{' '}
          <Button kind="quiet" onClick={onAlone}>
            {say('pairing:pair.goAlone')}
          </Button>
        </p>
      )}
    </main>
  );
}

/** What this device may do from now on. Opening the app loads the page anew: its line to the server opens with it. */
function Done({ role }: { readonly role: Extract<Paired, { is: 'paired' }>['role'] }): ReactNode {
  const { say } = useReader();
  return (
    <main className="pairing">
      <title>{say('pairing:pair.title')}</title>
      <p className="pair-house">{say('app:name')}</p>
      <Card rim aria-labelledby="paired">
        <h1 id="paired" role="status">
          {say('pairing:pair.done')}
        </h1>
        <p>{say(`pairing:roles.${role}.may`)}</p>
      </Card>
      <Button kind="main" className="pair-do" onClick={() => location.replace('/')}>
        {say('pairing:pair.open')}
      </Button>
    </main>
  );
}
