import { otherBodies, type Event, type OtherBody, type OtherKind } from './event.ts';
import { mergeEvents } from './merge.ts';
import { standing } from './standing.ts';

type LotKindOfEvent = Extract<OtherKind, 'lotReceived' | 'lotOpened' | 'lotTested' | 'lotUsedUp'>;

/** One test of a lot, and when it was made (milliseconds UTC). */
export type LotTest = OtherBody<'lotTested'> & { readonly eventId: string; readonly at: number };

/** The fold of one lot's events: what it is, and what is known of it by now. */
export interface LotRecord {
  readonly lotId: string;
  /** False until it was received; then `kind` is null and `name` empty. */
  readonly isReceived: boolean;
  readonly kind: OtherBody<'lotReceived'>['lotKind'] | null;
  readonly name: string;
  /** Liquid, powder, tablet, freeze-dried …; null where nobody said. */
  readonly form: string | null;
  /** As the label states it; null where it states none. */
  readonly strength: NonNullable<OtherBody<'lotReceived'>['strength']> | null;
  /** Of a packet: the milk it is stated to treat [L], and what it weighs [g]; null where nobody said. */
  readonly treatsL: number | null;
  readonly massG: number | null;
  readonly receivedOn: string | null;
  readonly openedOn: string | null;
  /** Null while there is some left. */
  readonly usedUpOn: string | null;
  /** Oldest first. */
  readonly tests: readonly LotTest[];
}

/**
 * What is known of one lot, from its events in any order and any number of times. The latest word on what it is counts;
 * what was taken back is left out.
 * @throws EventConflictError when one id stands for two different events
 */
export function foldLot(events: readonly Event[]): LotRecord {
  const ordered = mergeEvents(events, []);
  const live = standing(ordered).entries.filter((entry) => entry.isUnderstood && entry.retracted === null);
  const told = <K extends LotKindOfEvent>(kind: K): (OtherBody<K> & { eventId: string; at: number })[] =>
    live.flatMap(({ kind: its, body, eventId, at }) => {
      if (its !== kind || !isBodyOf(kind, body)) return [];
      return [{ ...body, eventId, at }];
    });
  const received = told('lotReceived').at(-1);
  return {
    lotId: ordered[0]?.streamId ?? '',
    isReceived: received !== undefined,
    kind: received?.lotKind ?? null,
    name: received?.name ?? '',
    form: received?.form ?? null,
    strength: received?.strength ?? null,
    treatsL: received?.treatsL ?? null,
    massG: received?.massG ?? null,
    receivedOn: received?.receivedOn ?? null,
    openedOn: told('lotOpened').at(-1)?.openedOn ?? null,
    usedUpOn: told('lotUsedUp').at(-1)?.usedUpOn ?? null,
    tests: told('lotTested').sort((a, b) => a.at - b.at),
  };
}

function isBodyOf<K extends OtherKind>(kind: K, body: unknown): body is OtherBody<K> {
  return otherBodies[kind].safeParse(body).success;
}
