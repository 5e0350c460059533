import { isDemoStream } from '../../../record/event.ts';
import { whyNotNoted } from '../../../record/may-note.ts';
import type { LogSnapshot, Note } from './event-log.ts';

/** This device's role may not note this. Nothing was kept. */
export class NotForRoleError extends Error {
  constructor(because: string) {
    super(because);
    this.name = 'NotForRoleError';
  }
}

/**
 * Why something is not for this device to note, by the rule that the server goes by; null where it is. An unpaired device is the
 * owner of its own log, and the worked example is everybody's.
 * @param held.streams  where what is taken back or set right is looked up
 */
export function whyNotHere(
  held: Pick<LogSnapshot, 'access' | 'deviceId' | 'streams'>,
  { kind, streamId, body }: Pick<Note, 'kind' | 'streamId' | 'body'>,
): string | null {
  const { access, deviceId, streams } = held;
  if (access === 'none' || access === 'maker' || isDemoStream(streamId)) return null;
  const told = isRecord(body) ? body : {};
  const replaced = streams.get(streamId)?.find(({ id }) => id === told['replaces']);
  return whyNotNoted({
    by: { role: access, logDevice: deviceId },
    event: { kind, deviceId, streamId, body: told },
    replaced,
  });
}

const isRecord = (body: unknown): body is Readonly<Record<string, unknown>> =>
  typeof body === 'object' && body !== null;
