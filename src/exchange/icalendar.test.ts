import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calendarText } from './icalendar.ts';

const MADE = Date.UTC(2026, 2, 4, 8, 0);
const write = (title: string, note = ''): string =>
  calendarText({ name: 'Ash', madeAt: MADE, moments: [{ id: 'ash.ripen.end', at: Date.UTC(2026, 2, 4, 9, 15), minutes: 5, title, note }] }); // prettier-ignore
const unfolded = (text: string): string[] => text.replaceAll('\r\n ', '').split('\r\n');
const unescaped = (text: string): string =>
  text.replaceAll(/\\(.)/g, (_all, sign: string) => (sign === 'n' ? '\n' : sign));

describe('the times of a make as a calendar file', () => {
  it('says when in UTC, and rings at that moment', () => {
    expect(unfolded(write('Ash: test the stretch'))).toEqual([
      'BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//Vatside//Vatside//EN', 'CALSCALE:GREGORIAN', 'X-WR-CALNAME:Ash',
      'BEGIN:VEVENT', 'UID:ash.ripen.end@vatside', 'DTSTAMP:20260304T080000Z', 'DTSTART:20260304T091500Z', 'DTEND:20260304T092000Z',
      'SUMMARY:Ash: test the stretch', 'BEGIN:VALARM', 'ACTION:DISPLAY', 'DESCRIPTION:Ash: test the stretch', 'TRIGGER:PT0S', 'END:VALARM', 'END:VEVENT',
      'END:VCALENDAR', '',
    ]); // prettier-ignore
  });

  it('escapes commas, semicolons, backslashes and line ends', () => {
    expect(write('Draw off 3,6 L; stir', 'one\r\ntwo\\three')).toContain('SUMMARY:Draw off 3\\,6 L\\; stir\r\n');
    expect(write('x', 'one\r\ntwo\\three')).toContain('DESCRIPTION:one\\ntwo\\\\three\r\n');
  });

  it('keeps every line at 75 octets and gives any text back whole', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (title) => {
        const text = write(title);
        for (const line of text.split('\r\n')) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
        const line = unfolded(text).find((one) => one.startsWith('SUMMARY:')) ?? '';
        const kept = title.replaceAll(/\r\n|\r|\n/g, '\n').replaceAll(/(?![\t\n])\p{Cc}/gu, '');
        expect(unescaped(line.slice('SUMMARY:'.length))).toBe(kept);
      }),
      { seed: 20_260_304, numRuns: 500 },
    );
  });
});
