import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import type { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { foldBatch } from '../../record/fold.ts';
import { newEvent } from '../../record/new-event.ts';
import type { ServedStore } from '../../store/kept-store.ts';
import { openSqliteStore } from '../../store/sqlite.ts';
import { createApp } from './app.ts';

const MORNING = Date.UTC(2026, 2, 4, 8);
const NOW = MORNING + 3_600_000;
const PATH = '/api/batches/ash/readings';
const isoOf = (at: number): string => new Date(at).toISOString();

let folder: string;
let store: ServedStore;
let app: Hono;

const make = { steps: [{ id: 'warm', verb: 'warm' }, { id: 'cut', verb: 'cut' }] }; // prettier-ignore
const opened = { make, answers: { milk: { volumeL: 10 } }, name: 'Ash', lotCode: 'A1', zeroAt: MORNING, demo: false };

/** Notes something in the batch from the tablet. */
async function onTablet(kind: string, body: object, deviceSeq: number, at = MORNING): Promise<void> {
  const device = { deviceId: 'tablet', deviceSeq, clock: undefined };
  const randomBytes = new Uint8Array(10).fill(deviceSeq + 1);
  const { event } = newEvent({ kind, body, streamId: 'batch:ash', happenedAt: at, loggedAt: at, person: '', device, randomBytes }); // prettier-ignore
  await store.append([event]);
}

const serve = (): Hono => createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map(), now: () => NOW });

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-readings-'));
  store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
  app = serve();
  await onTablet('batchOpened', opened, 0);
});

afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

function post(body: unknown, path = PATH): Promise<Response> {
  const init = { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
  return Promise.resolve(app.request(path, init));
}
const recordNow = async () => foldBatch((await store.readStream({ streamId: 'batch:ash', after: 0 })).map(({ event }) => event)); // prettier-ignore

describe('a reading sent by a probe', () => {
  it('is in the record at its time, in the canonical unit, of what is in the vat just then', async () => {
    await onTablet('stepStarted', { stepId: 'cut' }, 1, MORNING + 600_000);
    const answer = await post([
      { quantity: 'temperatureC', value: 98.6, unit: '°F', at: isoOf(MORNING + 300_000), instrumentId: 'vat probe' },
      { quantity: 'pH', value: 6.42 },
      { quantity: 'massKg', value: 1200, unit: 'g' },
    ]);
    expect(await answer.json()).toMatchObject({ answers: [{ state: 'added', at: isoOf(MORNING + 300_000) }, { state: 'added', at: isoOf(NOW) }, { reading: { value: 1.2, sample: 'curd' } }] }); // prettier-ignore
    const { readings, entries } = await recordNow();
    expect(readings.map(({ quantity, value, sample, instrumentId }) => [quantity, value, sample, instrumentId])).toEqual([['temperatureC', 37, 'milk', 'vat probe'], ['pH', 6.42, 'whey', undefined], ['massKg', 1.2, 'curd', undefined]]); // prettier-ignore
    expect(entries.at(-1)?.deviceId).toMatch(/^server-/);
  });

  it('stands after everything noted before it, so that it can be set right and taken back', async () => {
    await post({ quantity: 'pH', value: 6.42 });
    await post({ quantity: 'pH', value: 6.4 });
    const events = (await store.readStream({ streamId: 'batch:ash', after: 0 })).map(({ event }) => event);
    const clocks = events.map(({ clock }) => clock);
    expect(clocks).toEqual([...clocks].sort());
    expect(new Set(events.map(({ deviceId, deviceSeq }) => `${deviceId} ${deviceSeq}`)).size).toBe(3);
  });

  it('goes by what the tablet noted since the reading before, whose own post may have been refused', async () => {
    await post({ quantity: 'pH', value: 6.42 });
    await onTablet('stepStarted', { stepId: 'cut' }, 1, MORNING + 600_000);
    const late = { ...(await store.readStream({ streamId: 'batch:ash', after: 0 }))[0]!.event, id: 'ahead', clock: `00${NOW + 3_600_000}-00000`, kind: 'noted', body: { text: 'foam' } }; // prettier-ignore
    await store.append([late]);
    expect((await post({ quantity: 'pH', value: 66 })).status).toBe(400);
    expect(await (await post({ quantity: 'pH', value: 6.3 })).json()).toMatchObject({ answers: [{ reading: { sample: 'whey' } }] }); // prettier-ignore
    const { readings, entries } = await recordNow();
    expect(readings.map(({ value, sample }) => [value, sample])).toEqual([[6.42, 'milk'], [6.3, 'whey']]); // prettier-ignore
    expect((await store.readStream({ streamId: 'batch:ash', after: 0 })).at(-1)!.event.clock > late.clock).toBe(true);
    expect(entries).toHaveLength(5);
  });

  it('is noted once however often it is sent, also at once, and after the server was started anew', async () => {
    const reading = { quantity: 'temperatureC', value: 38.2, id: 'probe-1 08:05' };
    const states = async (answer: Response): Promise<string[]> =>
      z.object({ answers: z.array(z.object({ state: z.string() })) }).parse(await answer.json()).answers.map(({ state }) => state); // prettier-ignore
    const answers = await Promise.all([post(reading), post(reading), post([reading, reading])]);
    expect((await Promise.all(answers.map(states))).flat().sort()).toEqual(['added', 'known', 'known', 'known']);
    app = serve();
    expect(await states(await post(reading))).toEqual(['known']);
    expect((await recordNow()).readings).toHaveLength(1);
    const other = await post({ ...reading, value: 39 });
    expect(other.status).toBe(400);
    expect(await other.json()).toMatchObject({ errors: [{ code: 'contradiction', field: 'id' }] });
  });

  it('is noted once where it reaches two servers of one store at the same moment', async () => {
    const reading = { quantity: 'temperatureC', value: 38.2, id: 'probe-1 08:05' };
    const init = { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(reading) };
    const answers = await Promise.all([app, serve(), serve()].map(async (server) => server.request(PATH, init)));
    const texts = await Promise.all(answers.map((answer) => answer.text()));
    expect(texts.map((text) => /"state":"(\w+)"/.exec(text)?.[1] ?? text).sort()).toEqual(['added', 'known', 'known']);
    expect((await recordNow()).readings).toHaveLength(1);
  });

  it('is told to open pages at once', async () => {
    const reader = (await app.request('/api/live')).body?.pipeThrough(new TextDecoderStream()).getReader();
    expect((await reader?.read())?.value).toContain(': here');
    await post({ quantity: 'pH', value: 6.42 });
    expect((await reader?.read())?.value).toBe('event: stream\ndata: {"streamId":"batch:ash","last":2}\n\n');
    await reader?.cancel();
  });

  it('that is unusual is kept and doubted', async () => {
    const answer = await post({ quantity: 'temperatureC', value: 98.6 });
    expect(await answer.json()).toMatchObject({ answers: [{ state: 'added', doubt: expect.stringContaining('37') as unknown }] }); // prettier-ignore
  });

  it('is described in the OpenAPI document', async () => {
    const text = await (await app.request('/api/openapi.json')).text();
    const { paths } = z.object({ paths: z.record(z.string(), z.unknown()) }).parse(JSON.parse(text));
    expect(JSON.stringify(paths['/api/batches/{batchId}/readings'])).toContain('instrumentId');
  });
});

describe('what is no reading', () => {
  it.each([
    ['a temperature beyond any kitchen', { quantity: 'temperatureC', value: 300 }, 'value', 'impossible'],
    ['a pH of 66', { quantity: 'pH', value: 66 }, 'value', 'impossible'],
    ['a word', { quantity: 'pH', value: '6.4' }, 'value', 'wrong-type'],
    ['a quantity nobody notes', { quantity: 'colour', value: 1 }, 'quantity', 'wrong-type'],
    ['a pH in degrees', { quantity: 'pH', value: 6.4, unit: 'C' }, 'unit', 'unknown-choice'],
    ['a temperature in kilograms', { quantity: 'temperatureC', value: 36, unit: 'kg' }, 'unit', 'unknown-choice'],
    ['a unit of nothing', { quantity: 'temperatureC', value: 36, unit: 'constructor' }, 'unit', 'unknown-choice'],
    ['a time that is none', { quantity: 'pH', value: 6.4, at: 'noon' }, 'at', 'wrong-type'],
    ['tomorrow', { quantity: 'pH', value: 6.4, at: isoOf(NOW + 86_400_000) }, 'at', 'impossible'],
    ['the week before', { quantity: 'pH', value: 6.4, at: MORNING - 7 * 86_400_000 }, 'at', 'impossible'],
    ['a time beyond time', { quantity: 'pH', value: 6.4, at: Number.MAX_SAFE_INTEGER }, 'at', 'impossible'],
    ['a field that means nothing', { quantity: 'pH', value: 6.4, colour: 'white' }, 'event', 'unknown-field'],
  ] as const)('%s is refused by its field', async (_, body, field, code) => {
    const answer = await post(body);
    expect(answer.status).toBe(400);
    expect(await answer.json()).toMatchObject({ errors: [{ field, code }] });
    const listed = await post([{ quantity: 'pH', value: 6.5 }, body]);
    expect(await listed.json()).toMatchObject({ errors: [{ field: expect.stringMatching(/^\[1\]/) as unknown }] });
    expect((await recordNow()).readings).toEqual([]);
  });

  it('is refused: none, too many, too much, of no batch, of a make that is over', async () => {
    const one = { quantity: 'pH', value: 6.5 };
    expect((await post([])).status).toBe(400);
    expect((await post(Array.from({ length: 201 }, () => one))).status).toBe(400);
    expect((await post({ ...one, sample: 'x'.repeat(200_000) })).status).toBe(413);
    expect((await post(one, '/api/batches/nowhere/readings')).status).toBe(404);
    expect((await post(one, '/api/batches/a%20b/readings')).status).toBe(400);
    await onTablet('batchFinished', {}, 1, NOW - 60_000);
    expect(await (await post(one)).json()).toMatchObject({ errors: [{ field: 'at', remedy: expect.stringContaining('over') as unknown }] }); // prettier-ignore
    expect((await post({ ...one, at: NOW - 120_000 })).status).toBe(200);
  });

  it('never brings the server down, whatever it is, and leaves no reading that could not be', async () => {
    const field = fc.constantFrom('quantity', 'value', 'unit', 'at', 'sample', 'instrumentId', 'id', '__proto__', 'extra'); // prettier-ignore
    const value = fc.oneof(fc.jsonValue({ maxDepth: 3 }), fc.double(), fc.constantFrom('C', 'F', 'pH', 'temperatureC', 'whey', 36.6, isoOf(NOW), NOW)); // prettier-ignore
    let taken = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(field, value), { maxLength: 4 }), fc.boolean(), async (changes, isList) => {
        const one = Object.fromEntries([['quantity', 'temperatureC'], ['value', 36], ...changes]);
        const answer = await post(isList ? [one] : one);
        expect([200, 400], JSON.stringify(one)).toContain(answer.status);
        if (answer.status === 200) taken++;
      }),
      { seed: 20261129, numRuns: 200 },
    );
    await fc.assert(
      fc.asyncProperty(fc.jsonValue(), async (body) => {
        expect((await post(body)).status).toBeLessThan(500);
      }),
      { seed: 20261129, numRuns: 100 },
    );
    const { readings, unknown } = await recordNow();
    expect(readings.length).toBe(taken);
    expect(taken).toBeGreaterThan(20);
    expect(unknown).toEqual([]);
  }, 60_000);
});
