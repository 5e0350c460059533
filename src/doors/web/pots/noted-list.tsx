import { useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';

/** One pot's line of what was noted for several. */
export interface NotedRow {
  readonly potId: string;
  readonly name: string;
  /** When, or null where the pot was left out. */
  readonly at: number | null;
  /** What was read, where that differs from pot to pot. */
  readonly what?: string;
}

const STEPS_MIN = [-5, -1, 1, 5] as const;

/** What was noted, pot by pot; a tap on a time sets it right by minutes. */
export function NotedList({
  rows,
  onTime,
}: {
  readonly rows: readonly NotedRow[];
  readonly onTime: ((potId: string, at: number) => void) | null;
}): ReactNode {
  const { say, write } = useReader();
  const [open, setOpen] = useState<string | null>(null);
  return (
    <ul className="noted-list">
      {rows.map(({ potId, name, at, what }) => (
        <li key={potId}>
          <strong>{name}</strong>
          <span>{at === null ? say('pots:round.skipped') : (what ?? '')}</span>
          {at === null ? null : onTime === null ? (
            <span className="numerals">{write.clock(at)}</span>
          ) : (
            <VatButton
              className="noted-time numerals"
              aria-expanded={open === potId}
              aria-label={say('pots:all.timeOf', { pot: name, at: write.clock(at) })}
              onAct={() => setOpen(open === potId ? null : potId)}
            >
              {write.clock(at)}
            </VatButton>
          )}
          {open !== potId || at === null || onTime === null ? null : (
            <div className="noted-steps">
              {STEPS_MIN.map((minutes) => (
                <VatButton key={minutes} className="vat-small" onAct={() => onTime(potId, at + minutes * 60_000)}>
                  {say(minutes < 0 ? 'pots:all.earlier' : 'pots:all.later', { minutes: Math.abs(minutes) })}
                </VatButton>
              ))}
            </div>
          )}
        </li>
      ))}
    </ul>
  );
}
