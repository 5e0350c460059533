import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { useEffect } from 'react';
import type { Noting } from './use-noting.ts';
import { VatButton } from './vat-button.tsx';

const GONE_MS = 10_000;

/** What was just noted, large, with the way back, for ten seconds; a doubt stays until it is answered. */
export function NotedBar({
  noting,
  asks,
  onUndo,
  onSetRight,
  onGone,
  more,
}: {
  readonly noting: Noting;
  /** False where something else asks about the doubt. */
  readonly asks: boolean;
  readonly onUndo: () => void;
  /** Reads the same quantity again, keeping the first value visible in the record. */
  readonly onSetRight: (() => void) | null;
  readonly onGone: () => void;
  /** Further ways beside Undo: another pot. */
  readonly more?: ReactNode;
}): ReactNode {
  const { say } = useReader();
  const isAsking = asks && noting.doubt !== null;
  useEffect(() => {
    if (isAsking) return;
    const timer = setTimeout(onGone, GONE_MS);
    return () => clearTimeout(timer);
  }, [isAsking, onGone, noting]);
  return (
    <div className={isAsking ? 'noted noted-doubt' : 'noted'} role="status">
      <p className="noted-words">
        <strong>{noting.said}</strong> {isAsking ? noting.doubt : noting.expected}
      </p>
      <div className="noted-acts">
        {onSetRight === null ? null : (
          <VatButton className="vat-small" onAct={onSetRight}>
            {say(isAsking ? 'vat:pad.again' : 'vat:action.setRight')}
          </VatButton>
        )}
        <VatButton className="vat-small" keyHint="U" onAct={onUndo}>
          {say('vat:action.undo')}
        </VatButton>
        {more}
        {isAsking ? (
          <VatButton className="vat-small" onAct={onGone}>
            {say('vat:pad.keepIt')}
          </VatButton>
        ) : null}
      </div>
    </div>
  );
}
