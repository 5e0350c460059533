import { useRef, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { readMakeFile } from '../../../exchange/share/make-file.ts';
import type { Make } from '../../../make/make.ts';
import { InputError, problemText } from '../../../numbers/validity.ts';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { isBundled } from '../makes/make-shelf.ts';
import { useMakes } from '../makes/use-makes.ts';
import { keepMake } from './keep-make.ts';
import './share.css';

/** More than this nobody mends at once. Our own choice. */
const MOST_TOLD = 12;

type Read = { readonly make: Make; readonly isRenamed: boolean } | { readonly problems: readonly string[] };

/** A make from somebody's file: read whole, shown, and only then kept. */
export function TakeScreen(): ReactNode {
  const { say } = useReader();
  const { log } = useLog();
  const { own } = useMakes();
  const picker = useRef<HTMLInputElement>(null);
  const [read, setRead] = useState<Read | null>(null);
  const [kept, setKept] = useState<string | null>(null);
  const choose = async (file: File | undefined): Promise<void> => {
    setKept(null);
    if (file === undefined) return;
    try {
      const make = readMakeFile(await file.text());
      // A stranger's make never takes the place of one that came with the program.
      setRead({ make: isBundled(make.id) ? { ...make, id: `${make.id}-taken` } : make, isRenamed: isBundled(make.id) });
    } catch (error) {
      const problems = error instanceof InputError ? error.problems.map(problemText) : [say('share:take.unreadable')];
      setRead({ problems });
    }
  };
  const keep = async (make: Make): Promise<void> => {
    try {
      const isNew = await keepMake({ log, own: own.makes, make });
      setKept(say(isNew ? 'share:take.kept' : 'share:take.known'));
    } catch (error) {
      setRead({ problems: [error instanceof Error ? error.message : String(error)] });
    }
  };
  return (
    <article className="share">
      <header>
        <h1>{say('share:take.title')}</h1>
        <p>{say('share:take.lead')}</p>
      </header>
      <May note="makeSaved" tells>
      <p>
        <Button kind={read !== null && 'make' in read ? 'plain' : 'main'} onClick={() => picker.current?.click()}>
          {say('share:take.choose')}
        </Button>
        <input
          ref={picker}
          className="out-of-sight"
          type="file"
          accept=".json,application/json"
          tabIndex={-1}
          aria-label={say('share:take.choose')}
          onChange={(event) => {
            void choose(event.target.files?.[0]);
            event.target.value = '';
          }}
        />
      </p>
      </May>
      <div role="status">
        {read === null ? null : 'make' in read ? <Found make={read.make} isRenamed={read.isRenamed} kept={kept} onKeep={keep} /> : <Wrong problems={read.problems} />}
      </div>
    </article>
  );
} // prettier-ignore

function Found({
  make,
  isRenamed,
  kept,
  onKeep,
}: {
  readonly make: Make;
  readonly isRenamed: boolean;
  readonly kept: string | null;
  readonly onKeep: (make: Make) => Promise<void>;
}): ReactNode {
  const { say } = useReader();
  return (
    <section className="share-found">
      <p>{say('share:take.good')}</p>
      <h2>{make.name}</h2>
      <p>{make.about}</p>
      <p className="share-small">
        {[say('share:take.version', { id: make.id, version: make.version }), say('share:take.steps', { count: make.steps.length }), say('share:take.sources', { count: make.sources.length })].join(' · ')}
      </p>
      {isRenamed ? <p>{say('share:take.renamed', { id: make.id })}</p> : null}
      <Notice kind="caution">{say('share:take.raw')}</Notice>
      {kept === null ? (
        <Button kind="main" onClick={() => void onKeep(make)}>
          {say('share:take.keep')}
        </Button>
      ) : (
        <p>
          {kept} <Link href={`/makes/${make.id}`}>{make.name}</Link>
        </p>
      )}
    </section>
  );
} // prettier-ignore

function Wrong({ problems }: { readonly problems: readonly string[] }): ReactNode {
  const { say } = useReader();
  const more = problems.length - MOST_TOLD;
  return (
    <Notice kind="caution" title={say('share:take.wrong', { count: problems.length })}>
      <ul className="share-problems">
        {problems.slice(0, MOST_TOLD).map((problem) => (
          <li key={problem}>{problem}</li>
        ))}
      </ul>
      {more > 0 ? <p>{say('share:take.more', { count: more })}</p> : null}
    </Notice>
  );
}
