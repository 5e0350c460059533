import { useState, type ReactNode } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { Button } from '../look/button.tsx';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import { isKept } from '../log/not-kept.ts';
import { useLog } from '../log/log-provider.tsx';

/** Notes at any time, and how it tasted: the part of the record that only words can hold. */
export function RecordNotes({
  record,
  streamId,
}: {
  readonly record: BatchRecord;
  readonly streamId: string;
}): ReactNode {
  const { say } = useReader();
  const { log } = useLog();
  return (
    <section className="record-notes" aria-labelledby="record-notes">
      <h2 id="record-notes">{say('record:notes')}</h2>
      {[
        ...record.noted.map((note) => ({ id: note.eventId, text: note.text })),
        ...record.tasted.map((taste) => ({ id: taste.eventId, text: taste.words })),
      ].map((note) => (
        <p key={note.id} className="record-note">
          {note.text}
        </p>
      ))}
      <div className="record-writing no-print">
        <May note="noted" of={streamId}>
          {' '}
          <Writing
            label={say('record:note')}
            button={say('record:keepNote')}
            onKeep={(text) => isKept(log.record({ kind: 'noted', streamId, body: { text } }))}
          />
        </May>
        <May note="tasted" of={streamId}>
          <Writing
            label={say('record:taste')}
            button={say('record:keepTaste')}
            onKeep={(words) => isKept(log.record({ kind: 'tasted', streamId, body: { words } }))}
          />
        </May>
      </div>
      <div className="record-blanks print-only" aria-hidden="true">
        <span />
        <span />
        <span />
      </div>
    </section>
  );
}

function Writing({
  label,
  button,
  onKeep,
}: {
  readonly label: string;
  readonly button: string;
  readonly onKeep: (text: string) => Promise<boolean>;
}): ReactNode {
  const [text, setText] = useState('');
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        const words = text.trim();
        if (words !== '') void onKeep(words).then((kept) => (kept ? setText('') : undefined));
      }}
    >
      <label className="record-field">
        <span>{label}</span>
        <textarea rows={3} maxLength={4000} value={text} onChange={(event) => setText(event.target.value)} />
      </label>
      <Button type="submit" disabled={text.trim() === ''}>
        {button}
      </Button>
    </form>
  );
}
