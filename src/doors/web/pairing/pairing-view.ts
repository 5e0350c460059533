import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { Paired, ShownSharing } from './ask-server.ts';

/** Digits of a code. */
export const CODE_DIGITS = 8;
const DAY_MS = 86_400_000;
/** A device is taken to be there while the server heard it within this time; it says so once a minute at most. */
const HERE_MS = 150_000;

/** The digits of whatever was typed or pasted, at most a whole code. */
export const digitsOf = (typed: string): string => typed.replaceAll(/\D/g, '').slice(0, CODE_DIGITS);

/** The code that came with the picture; empty where the address has none. */
export const codeInHash = (hash: string): string => (/^#\d{8}$/.test(hash) ? hash.slice(1) : '');

/** In two halves, as it is read aloud: "1234 5678"; with places for what is still to come where asked. */
export function codeInHalves(code: string, blank = ''): string {
  const whole = blank === '' ? code : code.padEnd(CODE_DIGITS, blank);
  return `${whole.slice(0, CODE_DIGITS / 2)} ${whole.slice(CODE_DIGITS / 2)}`.trimEnd();
}

/** What went wrong with pairing, in words; null where nothing did. */
export function problemOf(paired: Paired | null, say: Say): string | null {
  if (paired === null || paired.is === 'paired') return null;
  return paired.is === 'wait'
    ? say('pairing:problem.wait', { seconds: paired.seconds })
    : say(`pairing:problem.${paired.is}`);
}

/** One device of the list as it is told. */
export interface DeviceLine {
  readonly id: string;
  readonly name: string;
  readonly role: string;
  readonly seen: string;
}

/** The devices, those heard last first. */
export function deviceLines(input: {
  readonly devices: ShownSharing['devices'];
  readonly now: number;
  readonly say: Say;
  readonly write: Pick<Writer, 'clock' | 'shortDate'>;
}): readonly DeviceLine[] {
  const { devices, now, say, write } = input;
  const seen = (at: number): string =>
    now - at < HERE_MS
      ? say('pairing:devices.here')
      : now - at < DAY_MS
        ? say('pairing:devices.seenAt', { at: write.clock(at) })
        : say('pairing:devices.seenOn', { day: write.shortDate(at) });
  return [...devices]
    .sort((a, b) => b.seenAt - a.seenAt)
    .map(({ id, name, role, seenAt, isAsking }) => ({
      id,
      name: isAsking ? say('pairing:devices.own', { name }) : name,
      role: say(`pairing:roles.${role}.name`),
      seen: seen(seenAt),
    }));
}

/** What a browser withholds from a page that came over plain HTTP from another machine (Secure Contexts, W3C). */
export const LACKS = ['lit', 'asleep', 'offline', 'kept'] as const;
export const lacksOf = (isSecure: boolean): readonly (typeof LACKS)[number][] => (isSecure ? [] : LACKS);

/** What a device is called unless somebody names it, by the room its screen has. */
export const kindOfDevice = (width: number): 'phone' | 'tablet' | 'computer' =>
  width < 600 ? 'phone' : width < 1100 ? 'tablet' : 'computer';
