import { otherBodies, type Event, type OtherBody, type OtherKind } from './event.ts';
import type { RecordEntry } from './batch-record.ts';
import { ALL_KINDS, keepingBodies } from './keeping-events.ts';
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
  readonly expiresOn: string | null;
  /** How much came, and what all of it cost in the maker's own money; null where nobody said. */
  readonly amount: NonNullable<OtherBody<'lotReceived'>['amount']> | null;
  readonly price: number | null;
  readonly openedOn: string | null;
  /** Null while there is some left. */
  readonly usedUpOn: string | null;
  /** When the first event of it happened, milliseconds UTC; 0 where there is none. */
  readonly sinceAt: number;
  /** When it left the list, milliseconds UTC; null while there is some left. */
  readonly usedUpAt: number | null;
  /** The last time that somebody looked how much is left. */
  readonly counted: { readonly left: number; readonly unit: string; readonly at: number } | null;
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
  const live = standing(ordered, ALL_KINDS).entries.filter((entry) => entry.isUnderstood && entry.retracted === null);
  const told = <K extends LotKindOfEvent>(kind: K): (OtherBody<K> & { eventId: string; at: number })[] =>
    live.flatMap(({ kind: its, body, eventId, at }) => {
      if (its !== kind || !isBodyOf(kind, body)) return [];
      return [{ ...body, eventId, at }];
    });
  const received = told('lotReceived').at(-1);
  const usedUp = told('lotUsedUp').at(-1);
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
    expiresOn: received?.expiresOn ?? null,
    amount: received?.amount ?? null,
    price: received?.price ?? null,
    openedOn: told('lotOpened').at(-1)?.openedOn ?? null,
    usedUpOn: usedUp?.usedUpOn ?? null,
    sinceAt: live[0]?.at ?? 0,
    usedUpAt: usedUp?.at ?? null,
    counted: countedIn(live),
    tests: told('lotTested').sort((a, b) => a.at - b.at),
  };
}

/** A count is a body of its own table; the last one that happened counts. */
function countedIn(live: readonly RecordEntry[]): LotRecord['counted'] {
  const counts = live.flatMap(({ kind, body, at }) => {
    const read = kind === 'lotCounted' ? keepingBodies.lotCounted.safeParse(body) : null;
    return read?.success === true ? [{ ...read.data, at }] : [];
  });
  return counts.sort((a, b) => a.at - b.at).at(-1) ?? null;
}

function isBodyOf<K extends OtherKind>(kind: K, body: unknown): body is OtherBody<K> {
  return otherBodies[kind].safeParse(body).success;
}
