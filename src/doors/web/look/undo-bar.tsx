import { useEffect, type ReactNode } from 'react';
import { Button } from './button.tsx';
import './undo-bar.css';

/**
 * What was just recorded, and the way back. Undo instead of asking beforehand: it stays for ten seconds, or until the
 * next record where `stays` is set (wet hands take longer).
 */
export function UndoBar({
  children,
  undoLabel,
  onUndo,
  onGone,
  stays = false,
  more,
}: {
  readonly children: ReactNode;
  readonly undoLabel: string;
  readonly onUndo: () => void;
  readonly onGone: () => void;
  readonly stays?: boolean;
  /** Further actions beside Undo, such as another pot. */
  readonly more?: ReactNode;
}): ReactNode {
  useEffect(() => {
    if (stays) return;
    const timer = setTimeout(onGone, 10_000);
    return () => clearTimeout(timer);
  }, [stays, onGone]);
  return (
    <div className="undo-bar" role="status">
      <div className="undo-bar-words">{children}</div>
      <div className="undo-bar-actions">
        <Button kind="second" onClick={onUndo}>
          {undoLabel}
        </Button>
        {more}
      </div>
    </div>
  );
}
