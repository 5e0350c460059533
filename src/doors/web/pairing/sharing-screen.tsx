import { useEffect, useState, type ReactNode } from 'react';
import { codeOf } from '../../../exchange/paper/code.ts';
import { ROLES, type Role } from '../../../record/may-note.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import { Choice } from '../look/choice.tsx';
import { Notice } from '../look/notice.tsx';
import { askNewCode, askSharing, takeAway, type Asked, type ShareState, type ShownSharing } from './ask-server.ts';
import { Lacks } from './lacks.tsx';
import { codeInHalves, deviceLines } from './pairing-view.ts';
import './pairing.css';

/** What is typed where the machine keeps Vatside: no words, but a command. */
const COMMAND = './bin/vatside serve --share --tls';

/** Where on a shared server a device is let in. */
const PAIRING = '/pair';

/** A device that pairs appears in the list within this time. */
const LOOK_MS = 4_000;

/** For makers: the code with its picture and what it gives, and the devices that were let in. */
export function SharingScreen(): ReactNode {
  const { say } = useReader();
  const [state, setState] = useState<Asked | null>(null);
  useEffect(() => {
    let isHere = true;
    const look = async (): Promise<void> => {
      const asked = await askSharing();
      // Nobody answers for a moment: what was seen stays.
      if (isHere) setState((before) => (asked === 'away' && before !== null ? before : asked));
    };
    void look();
    const timer = setInterval(() => void look(), LOOK_MS);
    return () => {
      isHere = false;
      clearInterval(timer);
    };
  }, []);
  const act = (asking: Promise<Asked>): void => void asking.then((asked) => (asked === 'away' ? askSharing().then(setState) : setState(asked))); // prettier-ignore
  return (
    <div className="sharing">
      <title>{say('pairing:sharing.title')}</title>
      <h1>{say('pairing:sharing.title')}</h1>
      {state === null ? null : state === 'no' || state === 'away' ? (
        <p>{say(`pairing:sharing.${state}`)}</p>
      ) : state.sharing === null ? (
        <NotShared />
      ) : (
        <Shared state={state} sharing={state.sharing} act={act} />
      )}
      <Lacks />
    </div>
  );
}

function NotShared(): ReactNode {
  const { say } = useReader();
  return (
    <>
      <p>{say('pairing:sharing.off')}</p>
      <p>{say('pairing:sharing.start')}</p>
      <pre className="sharing-command">{COMMAND}</pre>
      <p>{say('pairing:sharing.tlsWhy')}</p>
    </>
  );
}

function Shared({
  state,
  sharing,
  act,
}: {
  readonly state: ShareState;
  readonly sharing: ShownSharing;
  readonly act: (asking: Promise<Asked>) => void;
}): ReactNode {
  const { say, write } = useReader();
  const { addresses, code, role, devices, fingerprint } = sharing;
  const [address] = addresses;
  const lines = deviceLines({ devices, now: state.now, say, write });
  return (
    <>
      <Card rim className="sharing-card" aria-labelledby="sharing-code">
        {code === null || address === undefined ? null : <Picture address={`${address}${PAIRING}#${code.code}`} />}
        <div className="sharing-words">
          <h2 id="sharing-code">{say('pairing:sharing.pair')}</h2>
          {code === null ? (
            <p role="status">{say('pairing:sharing.dead')}</p>
          ) : (
            <p role="status">
              <strong className="numerals sharing-digits">{codeInHalves(code.code)}</strong>
              <span>
                {say('pairing:sharing.until', { at: write.clock(code.endsAt), may: say(`pairing:roles.${role}.code`) })}
              </span>
            </p>
          )}
          <Choice<Role>
            label={say('pairing:sharing.gives')}
            value={role}
            options={ROLES.map((value) => ({ value, label: say(`pairing:roles.${value}.name`) }))}
            onChange={(chosen) => act(askNewCode(chosen))}
          />
          <p className="sharing-small">{say(`pairing:roles.${role}.what`)}</p>
          <Button kind="second" onClick={() => act(askNewCode(role))}>
            {say('pairing:sharing.renew')}
          </Button>
        </div>
      </Card>
      <section aria-labelledby="sharing-where">
        <h2 id="sharing-where">{say('pairing:sharing.where')}</h2>
        {addresses.length === 0 ? <p>{say('pairing:sharing.nowhere')}</p> : null}
        <ul className="sharing-addresses">
          {addresses.map((one) => (
            <li key={one}>{one + PAIRING}</li>
          ))}
        </ul>
        {fingerprint === null ? (
          <Notice kind="caution">{say('pairing:sharing.plain')}</Notice>
        ) : (
          <details className="numbers">
            <summary>{say('pairing:sharing.certificate')}</summary>
            <p>{say('pairing:sharing.trust')}</p>
            <p className="sharing-fingerprint">{fingerprint}</p>
          </details>
        )}
      </section>
      <section aria-labelledby="sharing-devices">
        <h2 id="sharing-devices">{say('pairing:devices.title')}</h2>
        {lines.length === 0 ? <p>{say('pairing:devices.none')}</p> : null}
        <ul className="sharing-devices">
          {lines.map((line) => (
            <li key={line.id}>
              <span>
                <strong>{line.name}</strong>
                <span className="sharing-small">
                  {line.role}, {line.seen}
                </span>
              </span>
              <Button
                aria-label={say('pairing:devices.takeAwayOf', { name: line.name })}
                onClick={() => act(takeAway(line.id))}
              >
                {say('pairing:devices.takeAway')}
              </Button>
            </li>
          ))}
        </ul>
        <p className="sharing-small">{say('pairing:devices.after')}</p>
      </section>
    </>
  );
}

/** The code for a camera: black on white whatever the light of the page. */
function Picture({ address }: { readonly address: string }): ReactNode {
  const { say } = useReader();
  const code = codeOf(address);
  if (code === null) return null;
  return (
    <svg
      className="sharing-picture"
      viewBox={`0 0 ${code.size} ${code.size}`}
      role="img"
      aria-label={say('pairing:sharing.picture')}
    >
      <path d={code.path} />
    </svg>
  );
}
