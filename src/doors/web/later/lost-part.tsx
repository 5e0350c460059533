import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import './lost-part.css';

/** Says that a part of the page is not here, that the record lost nothing by it, and what to do. */
export function LostPart({
  isLost,
  because,
  asked,
  onAgain,
  onBack,
}: {
  /** False where the part is here and failed by itself. */
  readonly isLost: boolean;
  readonly because: string;
  /** How often it was asked for again. */
  readonly asked: number;
  readonly onAgain: () => void;
  readonly onBack?: (() => void) | undefined;
}): ReactNode {
  const { say } = useReader();
  const remedy = !isLost ? 'app:lost.anew' : asked === 0 ? 'app:lost.remedy' : 'app:lost.still';
  return (
    <section className="lost-part" role="alert">
      <h2>{say(isLost ? 'app:lost.title' : 'app:lost.broken')}</h2>
      <p>{say('app:lost.safe')}</p>
      <p>{say(remedy)}</p>
      <div className="lost-part-acts">
        <button type="button" className="lost-part-again" onClick={onAgain}>
          {say('app:lost.again')}
        </button>
        {onBack === undefined ? null : (
          <button type="button" onClick={onBack}>
            {say('app:lost.back')}
          </button>
        )}
      </div>
      <p className="lost-part-because">{because.replaceAll(location.origin, '')}</p>
    </section>
  );
}
