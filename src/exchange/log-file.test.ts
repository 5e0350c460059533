import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { newEvent } from '../record/new-event.ts';
import { logFileText, parseLogFile } from './log-file.ts';

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

describe('the log as a file', () => {
  it('reads back what it wrote, with kinds from a newer program', () => {
    const newer = { ...event, id: 'later', kind: 'sprinkled', version: 3, deviceSeq: 1 };
    expect(parseLogFile(logFileText([newer, event]))).toEqual([event, newer]);
  });

  it('names each event that cannot be read', () => {
    const text = JSON.stringify({ format: 'vatside-log', version: 1, events: [event, { ...event, body: {} }, 7] });
    expect(() => parseLogFile(text)).toThrow(InputError);
    expect(() => parseLogFile(text)).toThrow(/events\[1\]\.body\.text[\s\S]*events\[2\]/);
  });

  it('refuses text that is no log, with what to do', () => {
    for (const text of ['', '{', '[]', '{"format":"vatside-log","version":2,"events":[]}']) {
      expect(() => parseLogFile(text)).toThrow(/Choose a file that Vatside saved/);
    }
  });
});
