import { memo, type ReactNode } from 'react';
import { useMedia } from '../look/use-media.ts';
import { useReader } from '../device/reader.tsx';
import { ReadinessLines } from './readiness-lines.tsx';
import type { SistersView } from './sisters-view.ts';
import type { Noting } from './use-noting.ts';
import type { VatView } from './vat-view.ts';
import { VatButton } from './vat-button.tsx';
import { NARROW } from './vat-card.tsx';
import './vat-card.css';

const MOST_DEFERRED = 3;

/** What comes next and what must be made ready for it, what was done last, what was put off, and why the step is done. */
export const VatAside = memo(function VatAside({
  view,
  sisters,
  invitation,
  bell,
  onReady,
  noting,
  onUndo,
}: {
  readonly view: VatView;
  /** What pots beside this one have told; null where there are none. */
  readonly sisters: SistersView | null;
  /** A reading worth taking now; null where none is. */
  readonly invitation: ReactNode;
  /** Its silent lines and the kitchen timers. */
  readonly bell: ReactNode;
  /** What can still be taken back, once its bar has gone. */
  readonly noting: Noting | null;
  readonly onUndo: () => void;
  readonly onReady: (item: { readonly id: string; readonly text: string; readonly dropped: boolean }) => void;
}): ReactNode {
  const { say } = useReader();
  const isNarrow = useMedia(NARROW);
  const { coming, deferred } = view;
  const more = deferred.length - MOST_DEFERRED;
  return (
    <div className="vat-aside">
      {sisters?.odd == null ? null : (
        <p className="vat-caution" role="status">
          {sisters.odd}
        </p>
      )}
      {coming.text === null || (isNarrow && coming.prepare.length === 0) ? null : (
        <div className="vat-then">
          {isNarrow ? null : (
            <p className="vat-next">
              <strong>{say('vat:then.label')}</strong> {coming.text}
            </p>
          )}
          {coming.prepare.map((one) => (
            <div key={one.item} className="vat-prepare">
              <p>
                <strong>{say('vat:then.prepare')}</strong> {one.text}, <strong className="pair">{one.when}</strong>
              </p>
              <VatButton className="vat-small" onAct={() => onReady({ id: one.item, text: one.text, dropped: false })}>
                {say('vat:then.ready')}
              </VatButton>
            </div>
          ))}
        </div>
      )}
      {sisters?.learned == null ? null : <p className="vat-sisters">{sisters.learned}</p>}
      {invitation}
      {isNarrow ? <ReadinessLines view={view} /> : null}
      {deferred.length === 0 ? null : (
        <div className="vat-deferred">
          <h2>{say('vat:deferred.title')}</h2>
          {deferred.slice(0, MOST_DEFERRED).map((item) => (
            <div key={item.id} className="vat-prepare">
              <p>
                {item.text} {item.figure === null ? null : <strong className="pair">{item.figure}</strong>}
              </p>
              <VatButton className="vat-small" onAct={() => onReady({ id: item.id, text: item.text, dropped: false })}>
                {say('vat:deferred.done')}
              </VatButton>
              <VatButton className="vat-small" onAct={() => onReady({ id: item.id, text: item.text, dropped: true })}>
                {say('vat:deferred.drop')}
              </VatButton>
            </div>
          ))}
          {more > 0 ? <p>{say('vat:deferred.more', { count: more })}</p> : null}
        </div>
      )}
      {view.last === null ? null : (
        <p className="vat-last">
          <strong>{say('vat:lastLabel')}</strong> {view.last}
        </p>
      )}
      {noting === null ? null : (
        <div className="vat-prepare">
          <p>{noting.said}</p>
          <VatButton className="vat-small" keyHint="U" onAct={onUndo}>
            {say('vat:action.undo')}
          </VatButton>
        </div>
      )}
      {bell}
      {view.why === null ? null : (
        <p className="vat-why">
          <strong>{say('vat:why')}</strong> {view.why}
        </p>
      )}
    </div>
  );
});
