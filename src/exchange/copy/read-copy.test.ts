import { describe, expect, it } from 'vitest';
import { InputError } from '../../numbers/validity.ts';
import type { Event } from '../../record/event.ts';
import { VAT_KINDS } from '../../record/parse-event.ts';
import { endLine, eventLine, headerLine } from './copy-format.ts';
import { copyText } from './copy-text.ts';
import { CopyReader } from './read-copy.ts';
import { sha256 } from './sha256.ts';

const note = (id: string, text: string, streamId = 'batch:ash'): Event => ({
  id, streamId, kind: 'noted', version: 1, happenedAt: 5, loggedAt: 5, clock: '000000000000005-00000', person: 'M', deviceId: 'tablet', deviceSeq: 0, body: { text },
}); // prettier-ignore

const foam = note('one', 'foam');
const sour = note('two', 'sour\u2028 \u202Ebirch');
const whole = copyText(
  new Map([
    ['batch:birch', [note('three', 'firm', 'batch:birch')]],
    ['batch:ash', [foam, sour]],
  ]),
);

function read(text: string): Event[] {
  const reader = new CopyReader({ sum: sha256(), kinds: VAT_KINDS });
  const events = text.replace(/\n$/, '').split('\n').flatMap((line) => reader.line(line) ?? []); // prettier-ignore
  reader.end();
  return events;
}
/** What a reader says of a text; empty where it takes it. */
function faults(text: string): string {
  try {
    read(text);
    return '';
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.message;
  }
}
/** A copy with these lines in it and the right sum under them, as somebody might make who altered one on purpose. */
function signed(lines: readonly string[], counts = { streams: 1, events: lines.length }): string {
  const before = headerLine(counts) + lines.map((line) => `${line}\n`).join('');
  const sum = sha256();
  sum.update(before);
  return before + endLine(sum.hex());
}
const line = (event: unknown): string => JSON.stringify(event);

describe('a copy', () => {
  it('goes by stream and place, says how much it holds, and reads back to the letter', () => {
    expect(read(whole)).toEqual([foam, sour, note('three', 'firm', 'batch:birch')]);
    expect(whole.split('\n')[0]).toBe('{"format":"vatside-copy","version":1,"schema":"copy.schema.json","streams":2,"events":3}'); // prettier-ignore
    expect(whole).toMatch(/\n\{"end":"vatside-copy","sha256":"[0-9a-f]{64}"\}\n$/);
    expect(read(copyText(new Map()))).toEqual([]);
  });

  it('has no sign in a line that would break it or turn it round', () => {
    expect(whole).toContain('sour\\u2028 \\u202ebirch');
    expect(whole).not.toMatch(/[\u2028\u202E]/);
    expect(eventLine({ ...sour, person: '\u0085\u009F\uFEFF' })).toContain('"\\u0085\\u009f\\ufeff"');
  });

  it.each([
    ['cut off after a line', whole.split('\n').slice(0, 3).join('\n'), /line 4 .*a last line with the sum/],
    ['cut off in a line', whole.slice(0, 300), /line \d .*JSON text/],
    ['altered in a word', whole.replace('foam', 'foal'), /line 5: sha256 .*the sum of all before it.*take another copy/],
    ['without one of its events', whole.replace(eventLine(foam), ''), /line 4: sha256/],
    ['saved anew with other line ends', whole.replaceAll('\n', '\r\n'), /line 5: sha256|sha256/],
    ['going on after its end', `${whole}${line(foam)}`, /line 6 .*nothing after the last line/],
    ['of a newer program', whole.replace('"version":1', '"version":2'), /line 1: version .*update the program/],
    ['of another program', '{"format":"ledger","events":3}\n', /line 1 .*first line with "format": "vatside-copy"/],
    ['packed', 'PK\u0003\u0004\u0000', /line 1 .*PK.*does not fit/],
    ['empty', '', /line 1 /],
    ['with an event lost and the sum made right', signed([line(foam)], { streams: 1, events: 2 }), /line 1: events 2 .*1, as the lines say/],
    ['with a place outside', signed([line({ ...foam, id: '../../etc/passwd' })]), /line 2: id /],
    ['with a stream outside', signed([line({ ...foam, streamId: 'batch:../../x' })]), /line 2: streamId /],
    ['with a body that its kind has not', signed([line(foam), line({ ...foam, body: { words: 1 } })]), /line 3: body\.text.*\n.*line 3: body/],
    ['nested like a well', signed([`{"body":${'['.repeat(900)}${']'.repeat(900)}}`]), /line 2 .*nested at most 64/],
    ['with what all objects have', signed([line(foam).replace('"text"', '"__proto__":{"pwned":1},"text"')]), /line 2: body\.__proto__/],
    ['with what all objects are made by', signed([line({ ...foam, kind: 'sprinkled', body: { a: [{ constructor: { prototype: 1 } }] } })]), /line 2: body\.a\[0\]\.constructor/],
    ['with an event that is too large', signed([line(note('big', 'x'.repeat(300_000)))]), /line 2 .*at most 262144 characters/],
    ['with a line without end', `${headerLine({ streams: 1, events: 1 })}${'x'.repeat(2_000_000)}`, /line 2 .*characters a line/],
    ['a list', '[]', /line 1 /],
    ['null', 'null', /line 1 /],
  ])('is refused when it is %s, with the line and the field', (_, text, expected) => {
    expect(faults(text)).toMatch(expected);
    expect(Object.hasOwn(Object.prototype, 'pwned')).toBe(false);
  }); // prettier-ignore

  it('tells twenty faults of a file that is none, not a million', () => {
    const text = headerLine({ streams: 1, events: 1 }) + 'nothing\n'.repeat(50);
    expect(faults(text).split('\n')).toHaveLength(20);
  });
});
