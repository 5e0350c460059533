import { isClockOff, type ClockOffset } from '../../../record/clock-offset.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { Say } from '../../../exchange/words.ts';

const MINUTE_MS = 60_000;

/** What the device says of its own clock where it is off from the server's by more than a minute; null where it is not. */
export function clockNotice(input: {
  readonly offset: ClockOffset | null;
  readonly say: Say;
  readonly write: Pick<Writer, 'duration'>;
}): { readonly title: string; readonly text: string } | null {
  const { offset, say, write } = input;
  if (!isClockOff(offset)) return null;
  const time = write.duration(Math.abs(offset.offsetMs) / MINUTE_MS);
  return {
    title: offset.offsetMs > 0 ? say('app:device.clock.behind', { time }) : say('app:device.clock.ahead', { time }),
    text: say('app:device.clock.what'),
  };
}
