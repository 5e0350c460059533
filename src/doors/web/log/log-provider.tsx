import { createContext, useContext, useSyncExternalStore, type ReactNode } from 'react';
import type { EventLog, LogSnapshot } from './event-log.ts';

const LogContext = createContext<EventLog | null>(null);

/** Hands the opened log to the screens. */
export function LogProvider({ log, children }: { readonly log: EventLog; readonly children: ReactNode }): ReactNode {
  return <LogContext value={log}>{children}</LogContext>;
}

/** The log, and what it holds now; the screen is drawn again when that changes. */
export function useLog(): { readonly log: EventLog; readonly held: LogSnapshot } {
  const log = useContext(LogContext);
  if (log === null) throw new Error('No log has been opened around this screen.');
  return { log, held: useSyncExternalStore(log.subscribe, log.snapshot) };
}
