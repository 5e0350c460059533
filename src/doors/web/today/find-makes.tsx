import { useEffect, useMemo, useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import { Field } from '../look/field.tsx';
import { findView, foundSchema, foundWords, MOST_FOUND } from './find-view.ts';
import { BatchLines } from './finished-list.tsx';
import type { Listed } from './today-view.ts';

/** A server is asked once the typing rests. */
const REST_MS = 300;
const LONGEST = 100;

/** What a server found for these words; null where it did not answer. */
interface Answer {
  readonly search: string;
  readonly found: readonly Listed[] | null;
}

/** Finds a make among all that were ever made: on this device at once, and at its server where there is one. */
export function FindMakes(): ReactNode {
  const { say, write } = useReader();
  const { held } = useLog();
  const [search, setSearch] = useState('');
  const answer = useServerFound(search.trim());
  const lines = useMemo(
    () => findView({ streams: held.streams, search, onServer: answer?.found ?? [], say, write }),
    [held.streams, search, answer, say, write],
  );
  return (
    <section className="today-find">
      <Field label={say('today:find.label')} hint={say('today:find.hint')}>
        {(ties) => (
          <input
            {...ties}
            className="field-input"
            type="search"
            maxLength={LONGEST}
            value={search}
            onChange={(event) => setSearch(event.target.value)}
          />
        )}
      </Field>
      <p role="status">
        {search.trim() === ''
          ? ''
          : foundWords({ count: lines.length, isHereOnly: answer === null ? null : answer.found === null, say })}
      </p>
      {lines.length === 0 ? null : <BatchLines lines={lines} />}
    </section>
  );
}

/** Null until a server was asked for these very words. */
function useServerFound(search: string): Answer | null {
  const [answer, setAnswer] = useState<Answer | null>(null);
  useEffect(() => {
    if (search === '') return;
    const ending = new AbortController();
    const rest = setTimeout(() => {
      void foundOnServer(search, ending.signal).then((found) => {
        if (!ending.signal.aborted) setAnswer({ search, found });
      });
    }, REST_MS);
    return () => {
      clearTimeout(rest);
      ending.abort();
    };
  }, [search]);
  return answer?.search === search ? answer : null;
}

async function foundOnServer(search: string, signal: AbortSignal): Promise<readonly Listed[] | null> {
  try {
    const answer = await fetch(`/api/batches?limit=${MOST_FOUND}&search=${encodeURIComponent(search)}`, { signal });
    return answer.ok ? foundSchema.parse(await answer.json()).batches : null;
  } catch {
    return null;
  }
}
