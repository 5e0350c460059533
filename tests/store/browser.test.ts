import 'fake-indexeddb/auto';
import { deleteDB } from 'idb';
import { describe, expect, it } from 'vitest';
import { newEvent, type DeviceState } from '../../src/record/new-event.ts';
import { openBrowserStore } from '../../src/store/browser.ts';
import { storeContract } from './contract.ts';
import { notingDevice } from './sample-events.ts';

let count = 0;
const newName = (): string => `vatside-test-${count++}`;

storeContract('browser', () => {
  const name = newName();
  return { open: () => openBrowserStore({ name, newDeviceId: 'tablet' }), remove: () => deleteDB(name) };
});

/** Makes one note as the device that is handed in. */
function noteBy(text: string, streamId = 'batch:ash') {
  return (device: DeviceState) => {
    const made = newEvent({ kind: 'noted', body: { text }, streamId, happenedAt: 5, loggedAt: 5, person: 'M', device, randomBytes: crypto.getRandomValues(new Uint8Array(10)) }); // prettier-ignore
    return { events: [made.event], device: made.device };
  };
}

describe('the store of a device', () => {
  it('keeps its own events for a server until it has them', async () => {
    const store = await openBrowserStore({ name: newName(), newDeviceId: 'tablet' });
    const [first] = await store.writeOwn(noteBy('foam'));
    const [second] = await store.writeOwn(noteBy('sour'));
    expect((await store.outbox({ limit: 9 })).map((event) => event.id)).toEqual([first!.id, second!.id]);
    await store.acknowledge([first!.id]);
    await store.setAside([{ id: second!.id, reason: 'altered' }]);
    expect(await store.outboxSize()).toBe(0);
    expect(await store.listSetAside()).toEqual([{ id: second!.id, reason: 'altered' }]);
    expect(await store.readAll({ after: 0 })).toHaveLength(2);
  });

  it('never sends the worked example', async () => {
    const store = await openBrowserStore({ name: newName(), newDeviceId: 'tablet' });
    await store.writeOwn(noteBy('foam', 'batch:demo-birch'));
    expect(await store.outboxSize()).toBe(0);
    expect(await store.listStreams()).toHaveLength(1);
  });

  it('counts its events once, in two tabs and after opening again', async () => {
    const name = newName();
    const a = await openBrowserStore({ name, newDeviceId: 'tablet' });
    const b = await openBrowserStore({ name, newDeviceId: 'another id' });
    await Promise.all([a, b, a, b].map((tab, index) => tab.writeOwn(noteBy(`look ${index}`))));
    await a.close();
    const again = await openBrowserStore({ name, newDeviceId: 'a third id' });
    const [last] = await again.writeOwn(noteBy('last look'));
    expect(last).toMatchObject({ deviceSeq: 4, deviceId: 'tablet' });
    const all = (await again.readAll({ after: 0 })).map(({ event }) => event.deviceSeq);
    expect(all.sort((a, b) => a - b)).toEqual([0, 1, 2, 3, 4]);
  });

  it('takes a server page with its cursor, and its clock goes past what it saw', async () => {
    const store = await openBrowserStore({ name: newName(), newDeviceId: 'tablet' });
    const seen = notingDevice('phone')('from the phone');
    await store.takePulled({ streamId: seen.streamId, events: [seen], after: 0, cursor: 1, nowMs: seen.loggedAt });
    expect((await store.cursors()).get(seen.streamId)).toBe(1);
    const [own] = await store.writeOwn(noteBy('after it'));
    expect(own!.clock > seen.clock).toBe(true);
  });

  it('takes the events of a page that was asked for before another tab started over, and not its place', async () => {
    const store = await openBrowserStore({ name: newName(), newDeviceId: 'tablet' });
    const note = notingDevice('phone');
    const [first, second, late] = [note('foam'), note('sour'), note('clear')];
    const page = (event: typeof first, after: number) => store.takePulled({ streamId: event.streamId, events: [event], after, cursor: after + 1, nowMs: event.loggedAt }); // prettier-ignore
    await page(first, 0);
    await page(second, 1);
    await store.startOver();
    await page(late, 2);
    expect((await store.cursors()).size).toBe(0);
    expect(await store.readAll({ after: 0 })).toHaveLength(3);
  });

  it('keeps nothing of a change that fails half way', async () => {
    const store = await openBrowserStore({ name: newName(), newDeviceId: 'tablet' });
    await expect(
      store.writeOwn((device) => {
        noteBy('never')(device);
        throw new Error('the form was incomplete');
      }),
    ).rejects.toThrow('incomplete');
    const altered = notingDevice('phone')('x');
    await store.append([altered]);
    const page = [notingDevice('probe')('y'), { ...altered, person: 'N' }];
    await expect(
      store.takePulled({ streamId: altered.streamId, events: page, after: 0, cursor: 9, nowMs: altered.loggedAt }),
    ).rejects.toThrow(/other content/);
    expect((await store.cursors()).size).toBe(0);
    expect(await store.readAll({ after: 0 })).toHaveLength(1);
    expect((await store.device()).deviceSeq).toBe(0);
  });
});

describe('what a tab reads on', () => {
  it('is what was written, in the order of writing, from where it stopped', async () => {
    const store = await openBrowserStore({ name: newName(), newDeviceId: 'tablet' });
    const note = notingDevice('phone');
    const events = [note('foam'), note('lovely', 'batch:birch'), note('sour'), note('clear', 'batch:birch')];
    await store.append(events);
    const first = await store.readWritten({ after: 0, limit: 3 });
    const rest = await store.readWritten({ after: first.at(-1)?.position ?? 0 });
    expect([...first, ...rest].map(({ event }) => event)).toEqual(events);
    expect(rest).toHaveLength(1);
  });
});
