/**
 * A calendar file (iCalendar, RFC 5545): events with an alarm each, for a phone that rings while the page cannot.
 * Only what such a file needs: VCALENDAR, VEVENT, VALARM; times in UTC.
 */
import { shownText } from './shown-text.ts';

/** One moment to be reminded of. */
export interface CalendarMoment {
  /** Stable and unique in the calendar: an event taken in again replaces the one of before. */
  readonly id: string;
  /** Milliseconds UTC. */
  readonly at: number;
  readonly minutes: number;
  readonly title: string;
  readonly note: string;
}

/** A whole day with something to do in it: no hour of its own, the same day in every zone. */
export interface CalendarDay {
  readonly id: string;
  /** `2026-12-24`. */
  readonly day: string;
  /** The hour at which it rings, by the clock of whoever holds the calendar; 0 to 23. */
  readonly ringHour: number;
  readonly title: string;
  readonly note: string;
}

const LINE_OCTETS = 75; // RFC 5545, 3.1: without the line break

/**
 * Writes the file.
 * @param input.name  of the calendar
 * @param input.madeAt  when the file is made, milliseconds UTC (DTSTAMP)
 * @param input.days  whole days, where there are any; a calendar with them is one to subscribe to, and says how often
 * @returns text with CRLF line ends, lines folded at 75 octets, TEXT values escaped
 * @source RFC 5545 (2009): 3.1 folding, 3.3.5 DATE-TIME, 3.3.11 TEXT, 3.6.1 VEVENT, 3.6.6 VALARM; RFC 7986 (2016), 5.7 REFRESH-INTERVAL; from memory
 */
export function calendarText(input: {
  readonly name: string;
  readonly madeAt: number;
  readonly moments: readonly CalendarMoment[];
  readonly days?: readonly CalendarDay[];
}): string {
  const { name, madeAt, moments, days } = input;
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Vatside//Vatside//EN',
    'CALSCALE:GREGORIAN',
    `X-WR-CALNAME:${escaped(name)}`,
    ...(days === undefined ? [] : ['REFRESH-INTERVAL;VALUE=DURATION:PT6H']),
    ...moments.flatMap((moment) => eventLines(moment, madeAt)),
    ...(days ?? []).flatMap((day) => dayLines(day, madeAt)),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join('');
}

const eventLines = ({ id, at, minutes, title, note }: CalendarMoment, madeAt: number): readonly string[] => [
  'BEGIN:VEVENT',
  `UID:${escaped(id)}@vatside`,
  `DTSTAMP:${utc(madeAt)}`,
  `DTSTART:${utc(at)}`,
  `DTEND:${utc(at + Math.max(1, Math.round(minutes)) * 60_000)}`,
  `SUMMARY:${escaped(title)}`,
  ...(note === '' ? [] : [`DESCRIPTION:${escaped(note)}`]),
  'BEGIN:VALARM',
  'ACTION:DISPLAY',
  `DESCRIPTION:${escaped(title)}`,
  'TRIGGER:PT0S',
  'END:VALARM',
  'END:VEVENT',
];

const dayLines = ({ id, day, ringHour, title, note }: CalendarDay, madeAt: number): readonly string[] => [
  'BEGIN:VEVENT',
  `UID:${escaped(id)}@vatside`,
  `DTSTAMP:${utc(madeAt)}`,
  `DTSTART;VALUE=DATE:${day.replaceAll('-', '')}`,
  `SUMMARY:${escaped(title)}`,
  ...(note === '' ? [] : [`DESCRIPTION:${escaped(note)}`]),
  'TRANSP:TRANSPARENT',
  'BEGIN:VALARM',
  'ACTION:DISPLAY',
  `DESCRIPTION:${escaped(title)}`,
  `TRIGGER:PT${ringHour}H`,
  'END:VALARM',
  'END:VEVENT',
];

/** `20260304T091500Z`; the second is rounded, years 0 to 9999. */
const utc = (at: number): string =>
  new Date(Math.round(at / 1000) * 1000).toISOString().replaceAll(/[-:]|\.\d{3}/g, '');

/** TEXT: backslash, semicolon and comma are escaped, line ends become `\n`; other control signs have no place in it. */
const escaped = (text: string): string =>
  shownText(text)
    .replaceAll(/[\\;,]/g, (sign) => `\\${sign}`)
    .replaceAll(/\r\n|\r|\n/g, '\\n');

/** A long line goes on in the next after one blank; no character is cut in two. */
function folded(line: string): string {
  const parts: string[] = [];
  let part = '';
  let octets = 0;
  for (const character of line) {
    const size = octetsOf(character);
    if (octets + size > LINE_OCTETS) {
      parts.push(part);
      part = ' ';
      octets = 1;
    }
    part += character;
    octets += size;
  }
  return [...parts, part].join('\r\n');
}

/** UTF-8 octets of one character (RFC 3629); half a pair of surrogates is written as U+FFFD, three octets. */
function octetsOf(character: string): number {
  const point = character.codePointAt(0) ?? 0;
  return point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
}
