import { InputError } from '../../numbers/validity.ts';
import type { Event } from '../../record/event.ts';

/**
 * The batches of a record file, or the one that was named.
 * @throws InputError where there is none
 */
export function batchIdsOf(input: { readonly events: readonly Event[]; readonly batch: string | undefined }): string[] {
  const { events, batch } = input;
  const ids = [...new Set(events.map((event) => event.streamId))].filter((id) => id.startsWith('batch:'));
  const chosen = batch === undefined ? ids : ids.filter((id) => id === batch);
  if (chosen.length > 0) return chosen;
  throw new InputError([
    {
      code: 'missing',
      field: 'batch',
      value: batch,
      expected: ids.length === 0 ? 'events of a batch in the file' : `one of ${ids.join(', ')}`,
      remedy: 'Choose a record of a make.',
    },
  ]);
}
