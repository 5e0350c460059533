import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { copyText } from '../../src/exchange/copy/copy-text.ts';
import type { Event } from '../../src/record/event.ts';
import { StoreTooNewError, type EventStore } from '../../src/store/port.ts';
import { STORE_FORMAT } from '../../src/store/sql-schema.ts';
import { notingDevice } from './sample-events.ts';

const FOLDER = new URL('released/', import.meta.url);
export const released = (name: string): string => readFileSync(new URL(name, FOLDER), 'utf8');

/** A place that a store of an older program can be put into, as statements. */
export interface OldPlace {
  readonly run: (statements: string) => Promise<void>;
  readonly open: () => Promise<EventStore>;
  readonly remove: () => Promise<void>;
}

async function copyOf(store: EventStore): Promise<string> {
  const streams = new Map<string, Event[]>();
  for (const { streamId } of await store.listStreams()) {
    streams.set(
      streamId,
      (await store.readStream({ streamId, after: 0 })).map(({ event }) => event),
    );
  }
  return copyText(streams);
}

/** What a program promises to whoever began with an older one; run once for each engine. */
export function bringsForward(newPlace: () => Promise<OldPlace>): void {
  const formats = Array.from({ length: STORE_FORMAT }, (_, index) => index + 1);

  it('has a sample of every released format, and none of one that is not', () => {
    // Missing: npx tsx scripts/write-released-store.ts
    const samples = readdirSync(FOLDER).filter((name) => name.startsWith('format-'));
    expect(samples.toSorted()).toEqual(formats.map((format) => `format-${format}.sql`).toSorted());
  });

  it.each(formats)('brings a store of format %i forward with every event in its place, and writes on in it', async (format) => {
    const place = await newPlace();
    await place.run(released(`format-${format}.sql`));
    const store = await place.open();
    expect(await copyOf(store)).toBe(released('copy-1.ndjson'));
    const [first] = await store.listStreams();
    const note = notingDevice('tablet')('foam', first?.streamId);
    expect(await store.append([note])).toEqual([{ id: note.id, state: 'added' }]);
    await store.close();
    const again = await place.open();
    expect((await again.listStreams())[0]?.last).toBe((first?.last ?? 0) + 1);
    await again.close();
    await place.remove();
  }); // prettier-ignore

  it('leaves a store alone that a newer program wrote, and says so', async () => {
    const place = await newPlace();
    await (await place.open()).close();
    await place.run(`insert into store_format (format, applied_at) values (${STORE_FORMAT + 1}, 0);`);
    const opening = place.open();
    await expect(opening).rejects.toThrow(StoreTooNewError);
    await expect(opening).rejects.toThrow(new RegExp(`has format ${STORE_FORMAT + 1}; this program knows formats up to ${STORE_FORMAT}\\. Nothing was changed\\. Start the newer program`)); // prettier-ignore
    await place.remove();
  });
}
