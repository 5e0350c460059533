/** The fold of one brine: what it was made as, what was read, taken from it and put back, how often it was used. */
import type { Event } from './event.ts';
import { keptLog, type Kept, type KeptLine } from './kept-log.ts';

export interface BrineRecord {
  readonly brineId: string;
  /** Null until it was made. */
  readonly made: Kept<'brineMade'> | null;
  readonly checks: readonly Kept<'brineChecked'>[];
  readonly uses: readonly Kept<'brineUsed'>[];
  readonly topped: readonly Kept<'brineTopped'>[];
  readonly cared: readonly Kept<'brineCared'>[];
  readonly endedAt: number | null;
  /** When it was last boiled or filtered; its making where never. */
  readonly cleanAt: number | null;
  /** Batches that went through it since then. */
  readonly usesSinceClean: number;
  /** Everything that stands, oldest first. */
  readonly lines: readonly KeptLine[];
}

/**
 * What is known of one brine, from its events in any order.
 * @throws EventConflictError when one id stands for two different events
 */
export function foldBrine(events: readonly Event[]): BrineRecord {
  const { streamId, lines, told } = keptLog(events);
  const made = told('brineMade').at(-1) ?? null;
  const cared = told('brineCared');
  const uses = told('brineUsed');
  const cleanAt = cared.filter(({ how }) => how !== 'skimmed').at(-1)?.at ?? made?.at ?? null;
  return {
    brineId: streamId,
    made,
    checks: told('brineChecked'),
    uses,
    topped: told('brineTopped'),
    cared,
    endedAt: told('brineEnded')[0]?.at ?? null,
    cleanAt,
    usesSinceClean: uses.filter(({ at }) => cleanAt === null || at >= cleanAt).length,
    lines,
  };
}
