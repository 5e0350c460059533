/** A copy in one piece, for a device that holds its whole log. */
import type { Event } from '../../record/event.ts';
import { endLine, eventLine, headerLine } from './copy-format.ts';
import { sha256 } from './sha256.ts';

/**
 * @param streams  events by stream, each in the order in which the store keeps them
 * @returns the copy: streams by id, events by place
 */
export function copyText(streams: ReadonlyMap<string, readonly Event[]>): string {
  const ordered = [...streams].filter(([, events]) => events.length > 0).sort(([a], [b]) => (a < b ? -1 : 1));
  const events = ordered.flatMap(([, list]) => list);
  const before = headerLine({ streams: ordered.length, events: events.length }) + events.map(eventLine).join('');
  const sum = sha256();
  sum.update(before);
  return before + endLine(sum.hex());
}
