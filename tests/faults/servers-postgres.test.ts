import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Event } from '../../src/record/event.ts';
import { newSchema, type Schema } from '../store/database.ts';
import { notingDevice } from '../store/sample-events.ts';
import { listenTo, push, serveOn } from './two-servers.ts';

describe('two servers on one PostgreSQL database', () => {
  let schema: Schema;
  beforeEach(async () => {
    schema = await newSchema();
  });
  afterEach(() => schema.remove());

  it('tell each other’s pages within a second what was noted through either', async () => {
    const servers = await Promise.all([0, 1].map(() => serveOn({ databaseUrl: schema.url })));
    const lines = await Promise.all(servers.map(({ url }) => listenTo(url)));
    const waits: number[] = [];
    const note = notingDevice('tablet');
    for (let last = 1; last <= 4; last++) {
      const writer = last % 2;
      await push(servers[writer]!.url, [note(`look ${last}`)]);
      waits.push(await lines[1 - writer]!.until('batch:ash', last));
      // Not in step with the looks.
      await new Promise((resolve) => setTimeout(resolve, 130 * last));
    }
    expect(Math.max(...waits)).toBeLessThan(1000);
    const pages = await Promise.all(servers.map(async ({ url }) => (await fetch(`${url}api/streams/batch:ash/events`)).json())); // prettier-ignore
    expect(pages[0]).toEqual(pages[1]);
    expect(pages[0]).toMatchObject({ last: 4 });
    for (const line of lines) await line.hangUp();
    for (const server of servers) await server.close();
  });

  it('take one event once when a tablet sends it to both', async () => {
    const servers = await Promise.all([0, 1].map(() => serveOn({ databaseUrl: schema.url })));
    const note = notingDevice('tablet');
    const events = Array.from({ length: 150 }, (_, index) => note(`look ${index}`, `batch:${index % 7}`));
    await Promise.all(servers.flatMap(({ url }) => [push(url, events), push(url, events.toReversed())]));
    const { streams } = (await (await fetch(`${servers[0]!.url}api/streams`)).json()) as {
      streams: { last: number }[];
    };
    expect(streams.reduce((sum, { last }) => sum + last, 0)).toBe(150);
    for (const server of servers) await server.close();
  });

  it('lose no note, double none and tell all of them while the database throws them out forty times', async () => {
    const server = await serveOn({ databaseUrl: schema.url });
    const line = await listenTo(server.url);
    const pushed: Event[] = [];
    let isCutting = true;
    const tablets = ['a', 'b', 'c', 'd'].map(async (name) => {
      const note = notingDevice(name);
      while (isCutting) {
        const event = note('look', `batch:${name}`);
        await push(server.url, [event]);
        pushed.push(event);
      }
    });
    for (let cut = 0; cut < 40; cut++) {
      await schema.run('select pg_terminate_backend(pid) from pg_stat_activity where application_name = current_schema() and pid <> pg_backend_pid()'); // prettier-ignore
    }
    isCutting = false;
    await Promise.all(tablets);
    const count = (name: string) => pushed.filter(({ streamId }) => streamId === `batch:${name}`).length;
    for (const name of ['a', 'b', 'c', 'd']) {
      await line.until(`batch:${name}`, count(name));
      const page = (await (await fetch(`${server.url}api/streams/batch:${name}/events`)).json()) as { last: number };
      expect(page.last).toBe(count(name));
    }
    await line.hangUp();
    await server.close();
  });
});
