import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { newEvent } from '../record/new-event.ts';
import { copyText } from './copy/copy-text.ts';
import { parseLogFile } from './log-file.ts';

const { event } = newEvent({
  kind: 'noted',
  body: { text: 'a "quoted" ä' },
  streamId: 'batch:ash',
  happenedAt: 5,
  loggedAt: 5,
  person: 'M',
  device: { deviceId: 'tablet', deviceSeq: 0, clock: undefined },
  randomBytes: new Uint8Array(10),
});

const newer = { ...event, id: 'later', kind: 'sprinkled', version: 3, deviceSeq: 1 };

describe('the log as a file', () => {
  it('reads back what it wrote, with kinds from a newer program', () => {
    const text = copyText(new Map([['batch:ash', [event, newer]]]));
    expect(parseLogFile(text)).toEqual([event, newer]);
    // Saved anew by an editor that leaves out the last line end.
    expect(parseLogFile(text.trimEnd())).toEqual([event, newer]);
  });

  it('reads the form that copies had before', () => {
    const before = `{"format":"vatside-log","version":1,"events":[\n${[event, newer].map((one) => JSON.stringify(one)).join(',\n')}\n]}\n`;
    expect(parseLogFile(before)).toEqual([event, newer]);
  });

  it('names each event that cannot be read', () => {
    const text = JSON.stringify({ format: 'vatside-log', version: 1, events: [event, { ...event, body: {} }, 7] });
    expect(() => parseLogFile(text)).toThrow(InputError);
    expect(() => parseLogFile(text)).toThrow(/events\[1\]\.body\.text[\s\S]*events\[2\]/);
  });

  it('refuses text that is no log, with what to do', () => {
    for (const text of ['', '{', '[]', '{"format":"vatside-log","version":2,"events":[]}', '['.repeat(1e5)]) {
      expect(() => parseLogFile(text)).toThrow(/Choose a file that Vatside saved/);
    }
  });
});
