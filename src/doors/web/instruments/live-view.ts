import { isStale, type HeardAt } from '../../../exchange/probe/live-value.ts';
import { lastPosted, POSTED_STALE_MS } from '../../../exchange/probe/last-posted.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { Reading } from '../../../make/history.ts';
import { displayValue } from '../../../make/quantity.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { ProbeState } from './probe-hold.ts';

/** A longer name would push the value off a phone. */
const LONGEST_NAME = 24;

/** What the vat says of a live probe. */
export interface LiveView {
  /** What measures: "Probe", or the name that a script gave. */
  readonly name: string;
  /** "38.2 °C", or both where it tells both; null before the first value. */
  readonly value: string | null;
  /** Clock time of the last value. */
  readonly at: string | null;
  readonly isStale: boolean;
  /** When a value was last noted, in words; null before. */
  readonly noted: string | null;
  /** What is to be known or done; told in words, never only by a mark. */
  readonly notes: readonly string[];
  readonly isGone: boolean;
}

/** The line of a probe in one batch; null where no probe is in it. */
export function liveView(input: {
  readonly state: ProbeState;
  readonly streamId: string;
  readonly nowAt: number;
  readonly say: Say;
  readonly write: Writer;
}): LiveView | null {
  const { state, streamId, nowAt, say, write } = input;
  if (state.status === 'none' || state.streamId !== streamId) return null;
  const shown = (['temperatureC', 'pH'] as const).flatMap((quantity) => state.live.last[quantity] ?? []);
  const lastAt = shown.reduce((latest, one) => Math.max(latest, one.at), 0);
  const noted = (['temperatureC', 'pH'] as const).flatMap((quantity) => state.live.noted[quantity] ?? []);
  const notedAt = noted.reduce((latest, one) => Math.max(latest, one.at), 0);
  const text = (one: HeardAt): string => valueText(one, write);
  const isGone = state.status === 'lost' || state.status === 'waiting';
  const isOld = shown.length > 0 && isStale({ at: lastAt }, nowAt);
  const notes = [
    ...(state.status === 'connecting' ? [say('instruments:live.connecting')] : []),
    ...(state.status === 'waiting' ? [say('instruments:live.waiting')] : []),
    ...(state.status === 'lost' ? [say('instruments:live.lost', { at: write.clock(state.lostAt ?? nowAt) })] : []),
    ...(isOld && !isGone ? [say('instruments:live.stale', { at: write.clock(lastAt) })] : []),
    ...(state.status === 'on' && shown.length === 0 ? [say('instruments:live.silent')] : []),
    ...(state.unread === null ? [] : [say('instruments:live.unread', { text: state.unread })]),
    ...shown.flatMap((one) => (one.isPlausible ? [] : [say('instruments:live.implausible', { value: text(one) })])),
    ...(state.failed === 'keep' ? [say('instruments:live.notKept')] : []),
  ];
  return {
    name: say('instruments:live.probe'),
    value: shown.length === 0 ? null : shown.map(text).join(' · '),
    at: lastAt === 0 ? null : write.clock(lastAt),
    isStale: isOld,
    noted: notedAt === 0 ? null : write.clock(notedAt) === write.clock(lastAt) ? say('instruments:live.notedNow') : say('instruments:live.noted', { at: write.clock(notedAt) }), // prettier-ignore
    notes,
    isGone,
  };
}

/** What a script or a gateway sent last; null where it sent nothing of late. */
export function postedView(input: {
  readonly record: Pick<BatchRecord, 'entries'>;
  readonly nowAt: number;
  readonly say: Say;
  readonly write: Writer;
}): LiveView | null {
  const { record, nowAt, say, write } = input;
  const last = lastPosted({ record, nowAt });
  if (last === null) return null;
  const { quantity, value, instrumentId } = last.reading;
  const isOld = nowAt - last.at >= POSTED_STALE_MS;
  return {
    name: instrumentId?.slice(0, LONGEST_NAME) ?? say('instruments:live.script'),
    value: valueText({ quantity, value }, write),
    at: write.clock(last.at),
    isStale: isOld,
    noted: say('instruments:live.notedNow'),
    notes: isOld ? [say('instruments:live.stale', { at: write.clock(last.at) })] : [],
    isGone: false,
  };
}

function valueText(one: Pick<Reading, 'quantity' | 'value'>, write: Writer): string {
  const { value, decimals, symbol } = displayValue({ ...one, units: write.units });
  const number = write.number(value, decimals);
  return one.quantity === 'pH' ? `pH ${number}` : `${number}\u202F${symbol}`;
}
