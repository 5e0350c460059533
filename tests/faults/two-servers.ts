import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startServer } from '../../src/doors/server/serve.ts';
import type { Event } from '../../src/record/event.ts';

/** A line to a server that tells which streams have grown, held open until it is hung up. */
export interface Line {
  /** Waits until the line names a stream at a place or beyond; gives how long that took, in milliseconds. */
  readonly until: (streamId: string, last: number) => Promise<number>;
  readonly hangUp: () => Promise<void>;
}

/** Starts a server on a store that others may share, without makes. */
export async function serveOn(
  where: { readonly databaseUrl: string } | { readonly dataDir: string },
): Promise<{ readonly url: string; readonly close: () => Promise<void> }> {
  const folder = mkdtempSync(join(tmpdir(), 'vatside-servers-'));
  mkdirSync(join(folder, 'makes'));
  const server = await startServer({ port: 0, makesDir: join(folder, 'makes'), webDir: folder, ...where });
  return {
    url: server.url,
    async close() {
      await server.close();
      rmSync(folder, { recursive: true });
    },
  };
}

export async function push(url: string, events: readonly Event[]): Promise<unknown> {
  const body = JSON.stringify({ events });
  const answer = await fetch(`${url}api/events`, { method: 'POST', headers: { 'content-type': 'application/json' }, body }); // prettier-ignore
  if (!answer.ok) throw new Error(`${answer.status} ${await answer.text()}`);
  return answer.json();
}

export async function listenTo(url: string): Promise<Line> {
  const answer = await fetch(`${url}api/live`);
  const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader();
  const places = new Map<string, number>();
  let heard: () => void = () => undefined;
  const reading = (async () => {
    for (let text = ''; ;) {
      const { value, done } = await reader.read();
      if (done) return;
      text += value;
      for (const [, streamId = '', last] of text.matchAll(/data: \{"streamId":"([^"]+)","last":(\d+)\}\n/g)) {
        places.set(streamId, Number(last));
      }
      text = text.slice(text.lastIndexOf('\n\n') + 2);
      heard();
    }
  })().catch(() => undefined);
  return {
    async until(streamId, last) {
      const started = performance.now();
      while ((places.get(streamId) ?? 0) < last) {
        await new Promise<void>((resolve) => (heard = resolve));
      }
      return performance.now() - started;
    },
    async hangUp() {
      await reader.cancel();
      await reading;
    },
  };
}
