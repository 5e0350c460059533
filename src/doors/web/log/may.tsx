import { useMemo, type ReactNode } from 'react';
import { told } from '../../../exchange/words.ts';
import { useReader } from '../device/reader.tsx';
import { whyNotHere } from './for-role.ts';
import { useLog } from './log-provider.tsx';

/** What this device's role may note. What it may not is left out of the screens; that something is left out stands on top of each. */
export interface MayNote {
  /** Whether a kind of event may come from here, in a stream of its own or in this one. */
  readonly note: (kind: string, streamId?: string) => boolean;
  /** Whether all of what was noted may be taken back from here. */
  readonly takeBack: (streamId: string, eventIds: readonly string[]) => boolean;
  /** Why a kind is not for this device, in the reader's language; null where it is. */
  readonly whyNot: (kind: string) => string | null;
}

export function useMay(): MayNote {
  const { say } = useReader();
  const { access, deviceId, streams } = useLog().held;
  return useMemo(() => {
    const why = (kind: string, streamId: string, body: object): string | null =>
      whyNotHere({ access, deviceId, streams }, { kind, streamId, body });
    return {
      note: (kind, streamId = '') => why(kind, streamId, {}) === null,
      takeBack: (streamId, eventIds) => eventIds.every((replaces) => why('retracted', streamId, { replaces }) === null),
      whyNot: (kind) => {
        const because = why(kind, '', {});
        return because === null ? null : told(say, because);
      },
    };
  }, [say, access, deviceId, streams]);
}

/** What notes a kind of event: there for whoever may, else left out, or its reason in its place. */
export function May({
  note,
  of,
  tells = false,
  children,
}: {
  readonly note: string;
  /** The stream, where it may be the example's. */
  readonly of?: string;
  readonly tells?: boolean;
  readonly children: ReactNode;
}): ReactNode {
  const may = useMay();
  if (may.note(note, of)) return children;
  return tells ? <p>{may.whyNot(note)}</p> : null;
}
