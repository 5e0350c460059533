import { useState } from 'react';
import type { LoggerReading } from '../../../exchange/logger/logger-file.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useLog } from '../log/log-provider.tsx';
import { sampleAt, type FileAnswers } from './file-answers.ts';
import { keepFor } from './kept-mappings.ts';

interface Added {
  readonly count: number;
  readonly name: string;
  readonly eventIds: readonly string[];
}

export interface Adding {
  /** What was added last, until it is taken back. */
  readonly added: Added | null;
  readonly failed: string | null;
  readonly add: (input: {
    readonly readings: readonly LoggerReading[];
    readonly answers: FileAnswers;
  }) => Promise<void>;
  readonly undo: () => Promise<void>;
  readonly forget: () => void;
}

/** Notes the readings of a file all at once, and takes them back all at once. */
export function useAdding({ streamId, record }: { readonly streamId: string; readonly record: BatchRecord }): Adding {
  const { log } = useLog();
  const [added, setAdded] = useState<Added | null>(null);
  const [failed, setFailed] = useState<string | null>(null);
  const attempt = async (work: () => Promise<void>): Promise<void> => {
    try {
      await work();
      setFailed(null);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  return {
    added,
    failed,
    add: ({ readings, answers }) =>
      attempt(async () => {
        const instrumentId = instrumentNamed(answers.name);
        const notes = readings.map(({ quantity, value, at }) => ({ kind: 'reading', streamId, happenedAt: at, body: { quantity, value, sample: sampleAt({ choice: answers.sample, record, at }), instrumentId } })); // prettier-ignore
        const events = await log.recordAll(notes);
        keepFor(answers.signature, answers.mapping, answers.sample);
        setAdded({ count: events.length, name: answers.name, eventIds: events.map(({ id }) => id) });
      }),
    undo: () =>
      attempt(async () => {
        const ids = added?.eventIds ?? [];
        await log.recordAll(ids.toReversed().map((replaces) => ({ kind: 'retracted', body: { replaces }, streamId })));
        setAdded(null);
      }),
    forget: () => setAdded(null),
  };
}

/** The name of a file as the record keeps it: letters, figures and little else. */
const instrumentNamed = (name: string): string => `file ${name.replaceAll(/[^\p{L}\p{N} ._()-]/gu, '').trim().slice(0, 50)}`; // prettier-ignore
