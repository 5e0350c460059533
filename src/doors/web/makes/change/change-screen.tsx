import { useEffect, useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../../device/reader.tsx';
import { useMay } from '../../log/may.tsx';
import { fetchMake, isBundled } from '../make-shelf.ts';
import { useMakes, useWholeMakes } from '../use-makes.ts';
import { ChangeForm } from './change-form.tsx';
import { blankMake } from './written.ts';
import './change.css';

/** Writes a make, or changes one: a bundled one becomes one's own, one's own gets its next version. */
export function ChangeScreen({ makeId }: { readonly makeId: string }): ReactNode {
  const { say, book } = useReader();
  const { own } = useMakes();
  const whyNot = useMay().whyNot('makeSaved');
  const mine = own.makes.find(({ make }) => make.id === makeId) ?? null;
  const isNew = makeId === 'new';
  const fromId = mine?.saved.from ?? (isNew ? null : makeId);
  const ids = useMemo(() => (isNew ? [] : [makeId]), [isNew, makeId]);
  const { makes, failed } = useWholeMakes(ids);
  const original = useOriginal(fromId);
  const [make] = makes;
  const written = useMemo(
    () => (isNew ? blankMake() : make === undefined ? null : { ...book.make(make) }),
    [isNew, make, book],
  );
  if (written === null || (fromId !== null && isBundled(fromId) && original === null)) {
    return (
      <div className="change">
        <p>
          <Link className="change-link" href="/makes">
            {say('makes:page.back')}
          </Link>
        </p>
        {failed === null ? null : <p role="alert">{say('makes:lost', { why: failed })}</p>}
      </div>
    );
  }
  if (whyNot !== null) {
    return (
      <div className="change">
        <p>
          <Link className="change-link" href={isNew ? '/makes' : `/makes/${makeId}`}>
            {say('change:back')}
          </Link>
        </p>
        <h1>{isNew ? say('change:unnamedMake') : say('change:title', { name: make?.name ?? '' })}</h1>
        <p>{whyNot}</p>
      </div>
    );
  }
  return (
    <ChangeForm
      key={`${makeId}-${mine?.saved.current?.eventId ?? ''}`}
      makeId={makeId}
      written={written}
      mine={mine}
      original={original ?? make ?? null}
      basis={make === undefined ? [] : [make]}
    />
  );
}

/** The make that this one was written from, where it came with the build. */
function useOriginal(fromId: string | null): Awaited<ReturnType<typeof fetchMake>> | null {
  const [original, setOriginal] = useState<Awaited<ReturnType<typeof fetchMake>> | null>(null);
  useEffect(() => {
    if (fromId === null || !isBundled(fromId)) return;
    let isWanted = true;
    const fetchIt = async (): Promise<void> => {
      try {
        const make = await fetchMake(fromId);
        if (isWanted) setOriginal(make);
      } catch {
        // Without the original there is nothing to compare with; the make itself may still be written.
      }
    };
    void fetchIt();
    return () => {
      isWanted = false;
    };
  }, [fromId]);
  return original;
}
