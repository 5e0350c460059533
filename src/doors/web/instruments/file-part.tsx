import { useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { UndoBar } from '../look/undo-bar.tsx';
import type { Batch } from '../vat/batch.ts';
import { answersFor, type FileAnswers } from './file-answers.ts';
import { FileOutcome } from './file-outcome.tsx';
import { fileView } from './file-view.ts';
import { FirstRows } from './first-rows.tsx';
import { keptFor } from './kept-mappings.ts';
import { MappingSentence } from './mapping-sentence.tsx';
import { LARGEST_FILE_BYTES, rowsOf, textOf } from './read-rows.ts';
import { useAdding } from './use-adding.ts';

/** A logger's file, chosen or pasted: what it says, what of it would be noted, and one press that notes it. */
export function FilePart({
  batch,
  nowAt,
}: {
  readonly batch: Extract<Batch, { state: 'open' }>;
  readonly nowAt: number;
}): ReactNode {
  const { say, write } = useReader();
  const { record, plan, streamId } = batch;
  const [answers, setAnswers] = useState<FileAnswers | null>(null);
  const [pasted, setPasted] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const adding = useAdding({ streamId, record });
  const view = answers === null ? null : fileView({ answers, record, nowAt });

  const bring = (name: string, text: string): void => {
    const rows = rowsOf(text);
    const brought = answersFor({ name, rows, keptFor });
    const isEmpty = brought.mapping.headRows >= rows.length;
    setProblem(isEmpty ? say('instruments:file.noRows', { name }) : null);
    setAnswers(isEmpty ? null : brought);
  };
  const choose = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    if (file.size > LARGEST_FILE_BYTES) {
      setProblem(say('instruments:file.tooLarge', { name: file.name, most: LARGEST_FILE_BYTES / 1024 / 1024 }));
      return;
    }
    try {
      bring(file.name, textOf(await file.arrayBuffer()));
    } catch {
      setProblem(say('instruments:file.unreadable', { name: file.name }));
    }
  };
  return (
    <section className="instruments-part" aria-labelledby="instruments-file">
      <h2 id="instruments-file">{say('instruments:file.title')}</h2>
      <p>{say('instruments:file.how')}</p>
      <div className="instruments-bring">
        <label className="instruments-choose">
          <span>{say('instruments:file.choose')}</span>
          <input
            type="file"
            accept=".csv,.tsv,.txt,.log,text/csv,text/plain"
            onChange={(event) => {
              const { files } = event.target;
              void choose(files?.[0]);
              // So that the same file, mended, can be chosen again.
              event.target.value = '';
            }}
          />
        </label>
        <details className="instruments-paste">
          <summary>{say('instruments:file.paste')}</summary>
          <label className="record-field">
            <span>{say('instruments:file.pasteLabel')}</span>
            <textarea rows={5} value={pasted} onChange={(event) => setPasted(event.target.value)} />
          </label>
          <Button onClick={() => bring(say('instruments:file.pasted'), pasted)} disabled={pasted.trim() === ''}>
            {say('instruments:file.readPasted')}
          </Button>
        </details>
      </div>
      {problem === null ? null : (
        <p role="alert" className="instruments-problem">
          {problem}
        </p>
      )}
      {adding.failed === null ? null : (
        <p role="alert" className="instruments-problem">
          {say('instruments:file.notKept', { because: adding.failed })}
        </p>
      )}
      {adding.added === null ? null : (
        <UndoBar
          stays
          undoLabel={say('instruments:file.undo')}
          onUndo={() => void adding.undo()}
          onGone={adding.forget}
        >
          <strong>
            {say('instruments:file.added', {
              count: adding.added.count,
              number: write.number(adding.added.count, 0),
              name: adding.added.name,
            })}
          </strong>{' '}
          {/* prettier-ignore */}
          <Link href={`/record/${streamId}`}>{say('instruments:file.seeRecord')}</Link>
        </UndoBar>
      )}
      {answers === null || view === null ? null : (
        <>
          <h3>{say('instruments:file.says', { name: answers.name })}</h3>
          {answers.isRemembered ? <p>{say('instruments:file.remembered')}</p> : null}
          <MappingSentence answers={answers} questions={view.questions} onChange={setAnswers} />
          <FirstRows answers={answers} />
          {view.outcome === null ? (
            <p role="status">{say('instruments:file.open', { count: view.questions.length })}</p>
          ) : (
            <FileOutcome
              outcome={view.outcome}
              record={record}
              plan={plan}
              onAdd={(readings) => {
                void adding.add({ readings, answers });
                setAnswers(null);
                setPasted('');
              }}
            />
          )}
        </>
      )}
    </section>
  );
}
