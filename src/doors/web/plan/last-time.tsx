import { useMemo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import { leftForNext } from './left-for-next.ts';

/** What the last make of this cheese left to be done otherwise; nothing where it left nothing. */
export function LastTime({ makeId }: { readonly makeId: string }): ReactNode {
  const { say } = useReader();
  const { held } = useLog();
  const cause = useMemo(() => leftForNext({ streams: held.streams, makeId }), [held.streams, makeId]);
  const [name, change] = [`explain:cause.${cause}.name`, `explain:cause.${cause}.try`];
  // A cause of a newer version has no words here.
  if (cause === null || say(name) === name || say(change) === change) return null;
  return <p className="plan-brought">{say('explain:lastTime', { cause: say(name), change: say(change) })}</p>;
}
