import { useState, type ReactNode } from 'react';
import type { Verb } from '../../../make/step.ts';
import { useReader } from '../device/reader.tsx';
import { MISHAPS, mishapsFor, type Mishap } from './mishaps.ts';
import { VatButton } from './vat-button.tsx';
import './wrong.css';

const MINUTES = [5, 10, 20, 40] as const;

/** What went wrong, what may still be done, and that stopping is a fair answer. Hurt people come first. */
export function WrongScreen({
  verb,
  mishapId,
  standing,
  onShow,
  onTemperature,
  onMishap,
  onChoice,
  onThrowAway,
  onBack,
}: {
  readonly verb: Verb | null;
  /** The mishap whose choices are on screen; null while it is still being picked. */
  readonly mishapId: string | null;
  readonly onShow: (mishapId: string | null) => void;
  /** Opens the pad for a temperature, and comes back. */
  readonly onTemperature: () => void;
  /** How the make stands as foreseen, in one sentence; null without a forecast. */
  readonly standing: string | null;
  readonly onMishap: (mishap: Mishap) => void;
  readonly onChoice: (choice: {
    readonly mishap: Mishap;
    readonly id: string;
    readonly words: string;
    readonly minutes: number | null;
  }) => void;
  readonly onThrowAway: (mishap: Mishap | null) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  const mishap = MISHAPS.find((one) => one.id === mishapId) ?? null;
  const [all, setAll] = useState(false);
  const offered = mishapsFor(verb);
  const listed = all ? [...offered.first, ...offered.others] : offered.first;
  return (
    <section className="wrong" aria-labelledby="wrong-title">
      <h1 id="wrong-title">{mishap === null ? say('vat:wrong.title') : say(`vat:mishap.${mishap.id}.name`)}</h1>
      <p className="wrong-hurt">
        {say('vat:wrong.hurt')} <span className="vat-small-print">{say('vat:wrong.hurtSource')}</span>
      </p>
      {mishap === null ? (
        <>
          <h2>{say('vat:wrong.what')}</h2>
          <div className="wrong-causes">
            {listed.map((one, index) => (
              <VatButton
                key={one.id}
                className="wrong-cause"
                {...(index < 9 ? { keyHint: String(index + 1) } : {})}
                onAct={() => {
                  onMishap(one);
                  onShow(one.id);
                }}
              >
                {say(`vat:mishap.${one.id}.name`)}
              </VatButton>
            ))}
            {all ? null : (
              <VatButton className="wrong-cause wrong-all" keyHint="A" onAct={() => setAll(true)}>
                {say('vat:wrong.all')}
              </VatButton>
            )}
          </div>
        </>
      ) : (
        <Choices mishap={mishap} standing={standing} onTemperature={onTemperature} onChoice={onChoice} />
      )}
      <ThrowAway onThrowAway={() => onThrowAway(mishap)} />
      <VatButton className="vat-back" keyHint="Escape" onAct={mishap === null ? onBack : () => onShow(null)}>
        {mishap === null ? say('vat:action.back') : say('vat:wrong.what')}
      </VatButton>
    </section>
  );
}

function Choices({
  mishap,
  standing,
  onTemperature,
  onChoice,
}: {
  readonly mishap: Mishap;
  readonly standing: string | null;
  readonly onTemperature: () => void;
  readonly onChoice: Parameters<typeof WrongScreen>[0]['onChoice'];
}): ReactNode {
  const { say, write } = useReader();
  const [minutes, setMinutes] = useState<number | null>(null);
  return (
    <>
      {mishap.mayBeUnsafe ? <p className="wrong-unsafe">{say('vat:wrong.unsafe')}</p> : null}
      {mishap.asks.includes('temperature') ? (
        <div className="wrong-asks">
          <VatButton className="wrong-do" onAct={onTemperature}>
            {say('vat:wrong.howHot')}
          </VatButton>
        </div>
      ) : null}
      {mishap.asks.includes('minutes') ? (
        <div className="wrong-asks" role="group" aria-label={say('vat:wrong.howLong')}>
          <span>{say('vat:wrong.howLong')}</span>
          {MINUTES.map((one) => (
            <VatButton key={one} className="pad-ago" aria-pressed={minutes === one} onAct={() => setMinutes(one)}>
              {write.duration(one)}
            </VatButton>
          ))}
        </div>
      ) : null}
      {standing === null ? null : <p className="wrong-standing">{standing}</p>}
      <ol className="wrong-choices">
        {mishap.choices.map((choice, index) => {
          const degrees = Object.entries(choice.degreesC ?? {}).map(
            ([name, temperatureC]) => [name, write.degrees(temperatureC).text] as const,
          );
          const words = say(`vat:mishap.${mishap.id}.${choice.id}`, Object.fromEntries(degrees));
          return (
            <li key={choice.id} className="wrong-choice">
              <p>
                <strong>{words}</strong>
              </p>
              <p>{say(`vat:mishap.${mishap.id}.${choice.id}Brings`)}</p>
              <VatButton
                className="wrong-do"
                keyHint={String(index + 1)}
                onAct={() => onChoice({ mishap, id: choice.id, words, minutes })}
              >
                {say('vat:wrong.do')}
              </VatButton>
            </li>
          );
        })}
      </ol>
      <p className="vat-small-print">
        {say('vat:wrong.notComputed')} {say('vat:wrong.source', { source: mishap.source })}
      </p>
    </>
  );
}

/** Asks a second time, at another place, because it closes the batch; without blame. */
function ThrowAway({ onThrowAway }: { readonly onThrowAway: () => void }): ReactNode {
  const { say } = useReader();
  const [asking, setAsking] = useState(false);
  return (
    <div className="wrong-throw">
      <div>
        <strong>{say('vat:wrong.throw')}</strong>
        <p>{say('vat:wrong.throwWords')}</p>
      </div>
      {asking ? (
        <div className="wrong-throw-asks">
          <VatButton className="wrong-do" onAct={() => setAsking(false)}>
            {say('vat:wrong.throwKeep')}
          </VatButton>
          <VatButton className="wrong-do" onAct={onThrowAway}>
            {say('vat:wrong.throwSure')}
          </VatButton>
        </div>
      ) : (
        <VatButton className="wrong-do" onAct={() => setAsking(true)}>
          {say('vat:wrong.throw')}
        </VatButton>
      )}
    </div>
  );
}
