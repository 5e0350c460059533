import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { ReadyList, ReadyPath } from './short-list.ts';
import { VatButton } from './vat-button.tsx';

/** The full list or the short one, and what the short one leaves out and why. */
export function ReadyPathChoice({
  list,
  onPath,
}: {
  readonly list: ReadyList;
  readonly onPath: (path: ReadyPath) => void;
}): ReactNode {
  const { say, write } = useReader();
  const { path, leftOut, sinceAt } = list;
  const why =
    path === 'full'
      ? null
      : sinceAt === null
        ? say('vat:pause.shortFirst', { count: leftOut })
        : say('vat:pause.shortSince', { count: leftOut, day: write.day(sinceAt) });
  return (
    <div className="pause-path">
      <div className="pause-paths" role="group" aria-label={say('vat:pause.path')}>
        {(['short', 'full'] as const).map((one) => (
          <VatButton key={one} className="vat-small" aria-pressed={one === path} onAct={() => onPath(one)}>
            {say(`vat:pause.paths.${one}`)}
          </VatButton>
        ))}
      </div>
      {why === null ? null : <p className="vat-small-print">{why}</p>}
    </div>
  );
}
