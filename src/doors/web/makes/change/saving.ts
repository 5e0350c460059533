import type { Make } from '../../../../make/make.ts';
import type { Note } from '../../log/event-log.ts';
import type { OwnMake } from '../own-makes.ts';
import { put, slugOf } from './edit.ts';
import { asJson, type Written } from './written.ts';

const TAIL = 4; // letters of the stream that keep two makes of one name apart, on two devices too

/**
 * What to note when a make is saved: as a draft, with its next number. One's own goes into its own stream; anything else
 * becomes a make of its own, and the one it was written from stays as it is.
 */
export function savingOf(input: {
  readonly written: Written;
  readonly mine: OwnMake | null;
  /** The make it was written from, where it is not one's own yet. */
  readonly basis: Make | null;
  readonly newStreamId: () => string;
}): { readonly note: Note; readonly makeId: string } {
  const { written, mine, basis } = input;
  const streamId = mine?.saved.streamId ?? input.newStreamId();
  const tail = streamId.replace(/[^a-z0-9]/g, '').slice(-TAIL);
  const makeId = mine?.make.id ?? `${slugOf(String(written['name']))}-${tail}`;
  const version = (mine?.make.version ?? basis?.version ?? 0) + 1;
  const tidy = withoutBlankLines(written);
  const make = put(put(put(tidy, ['id'], makeId), ['version'], version), ['status'], 'draft');
  const from = mine === null && basis !== null ? { from: basis.id } : {};
  return { makeId, note: { kind: 'makeSaved', streamId, body: { make: asJson(make), ...from } } };
}

const LISTS = [['aliases'], ['milk', 'cartonWords', 'buy'], ['milk', 'cartonWords', 'avoid']] as const;

/** Lists typed one a line lose their empty lines; sources keep theirs, since figures point at them by number. */
function withoutBlankLines(written: Written): Written {
  return LISTS.reduce<Written>((json, path) => {
    const lines = path.reduce<unknown>((node, key) => (typeof node === 'object' && node !== null ? Object.entries(node).find(([name]) => name === key)?.[1] : undefined), json); // prettier-ignore
    return Array.isArray(lines) ? put(json, path, (lines as readonly unknown[]).filter((line) => String(line).trim() !== '')) : json; // prettier-ignore
  }, written);
}
