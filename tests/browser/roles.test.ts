import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ALL_KINDS } from '../../src/record/keeping-events.ts';
import type { Role } from '../../src/record/may-note.ts';
import { newEvent } from '../../src/record/new-event.ts';
import { launchChromium, SIZES, visit } from './chromium.ts';
import { startTestServer, type TestServer } from './server.ts';
import { keptEvents } from './tasks/kept.ts';
import { seedMake, sendEvents, type Seeded } from './tasks/seeded.ts';

/** A name that browsers take for another machine, whatever network this one is on. */
const NAME = 'dairy.local';
let server: TestServer;
let browser: Browser;
let make: Seeded;

beforeAll(async () => {
  server = await startTestServer({ names: [NAME] });
  browser = await launchChromium([`--host-resolver-rules=MAP ${NAME} 127.0.0.1`]);
  make = await seedMake({ url: server.url, stepId: 'set', minutes: 4, name: 'Ash' });
  await sendEvents(server.url, keepings());
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

/** A cheese, its room, a brine, a bottle, as the maker's own device noted them. */
function keepings(): readonly unknown[] {
  let device = { deviceId: 'desk', deviceSeq: 0, clock: undefined as string | undefined };
  const lines: readonly [streamId: string, kind: string, body: object][] = [
    ['place:cave', 'placeTold', { name: 'Cave', kind: 'cave', temperatureC: 12, humidityPercent: 88 }],
    ['piece:rowan', 'pieceMade', { name: 'Rowan 1', cheese: 'Tomme', madeOn: '2026-02-01', massKg: 2, place: 'place:cave', rind: 'bare', care: { stays: [{ every: { turn: 1, brush: 2, wash: 3 } }], tasteDays: [30], source: 'test' } }],
    ['piece:rowan', 'pieceTurned', {}],
    ['brine:one', 'brineMade', { name: 'Crock', madeOn: '2026-02-01', volumeL: 5, strength: { value: 18, unit: 'percent-by-mass' }, aimPercent: 18 }],
    ['brine:one', 'brineCared', { how: 'boiled' }],
    ['lot:r', 'lotReceived', { lotKind: 'rennet', name: 'Bottle by the window', form: 'liquid' }],
  ]; // prettier-ignore
  return lines.map(([streamId, kind, body], index) => {
    const at = make.at - 3_600_000 + index;
    const made = newEvent({ kind, body, streamId, happenedAt: at, loggedAt: at, person: '', device, randomBytes: new Uint8Array(10).fill(index), kinds: ALL_KINDS }); // prettier-ignore
    device = { ...made.device, clock: made.device.clock };
    return made.event;
  });
}

/** Every place that notes something, but for the vat and the pots, which have tests of their own; the example is opened last. */
const PLACES = [
  '/record/ash', '/record/ash/labels', '/record/ash/write-up', '/record/ash/instruments', '/ageing', '/ageing/rowan', '/ageing/new', '/brine',
  '/bench/lots', '/bench/rennet-test', '/makes/quick-stretched/change', '/share', '/plan', '/day', '/',
] as const; // prettier-ignore

interface Walked {
  readonly pressed: readonly string[];
  /** What said only afterwards that it is not for this device. */
  readonly late: readonly string[];
}

/** Goes to a place without loading it anew, writes into what takes words, and presses each button that is offered, once; but for those that only work out or open something. */
const pressAll = (page: Page, place: string): Promise<Walked> =>
  page.evaluate(async (address) => {
    const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
    const come = async (): Promise<void> => {
      const left = document.querySelector('main h1')?.textContent;
      const isSame = location.pathname === address.split('?')[0];
      history.pushState(null, '', address);
      for (let look = 0, calm = 0, before = ''; calm < 2 && look < 80; look++) {
        await pause(30);
        const heading = document.querySelector('main h1')?.textContent;
        const now = document.body.innerText;
        calm = heading !== undefined && (isSame || heading !== left) && now === before ? calm + 1 : 0;
        before = now;
      }
    };
    await come();
    const pressed = new Set<string>();
    const late: string[] = [];
    for (let guard = 0; guard < 40; guard++) {
      for (const field of document.querySelectorAll('main textarea')) {
        if (!(field instanceof HTMLTextAreaElement) || field.value !== '') continue;
        Object.getOwnPropertyDescriptor(HTMLTextAreaElement.prototype, 'value')?.set?.call(field, 'foam');
        field.dispatchEvent(new Event('input', { bubbles: true }));
      }
      await pause(15);
      const next = [...document.querySelectorAll<HTMLButtonElement>('main button:enabled')].find((one) => one.checkVisibility() && !/gone wrong|^Plan |^Use in|example|Leave out|Another make|Print/.test(one.innerText) && !pressed.has(one.innerText + (one.ariaLabel ?? ''))); // prettier-ignore
      if (next === undefined) break;
      pressed.add(next.innerText + (next.ariaLabel ?? ''));
      next.click();
      await pause(25);
      for (const wrong of document.querySelectorAll('main .notice-act')) late.push(`${address}, ${next.innerText}: ${wrong.textContent}`); // prettier-ignore
      if (location.pathname + location.search !== address) await come();
    }
    return { pressed: [...pressed], late };
  }, place);

/** Pairs a fresh device, walks all places and presses what is offered. */
async function walk(role: Role): Promise<{
  readonly page: Page;
  readonly offered: ReadonlyMap<string, string>;
  readonly close: () => Promise<void>;
}> {
  const { page, complaints, context } = await visit({ browser, size: SIZES.desk });
  await context.addInitScript(() => {
    globalThis.print = () => undefined;
    HTMLAnchorElement.prototype.click = () => undefined;
    HTMLInputElement.prototype.click = () => undefined;
  });
  await page.clock.setFixedTime(make.at);
  const shared = server.share?.sharing;
  const net = shared?.addresses().find((address) => address.includes(NAME)) ?? '';
  await page.goto(`${net}/pair#${shared?.code.renew(role).code ?? ''}`);
  await page.getByRole('button', { name: 'Pair', exact: true }).click();
  await page.getByText('Paired', { exact: true }).waitFor();
  await page.getByRole('button', { name: 'Open Vatside' }).click();
  await page.getByText(role === 'reader' ? 'This device looks.' : 'This device notes readings').waitFor();
  // It opens at the make under way, once that is here.
  await expect.poll(async () => (await keptEvents(page)).length, { timeout: 15_000 }).toBeGreaterThanOrEqual(make.walk.events.length + keepings().length); // prettier-ignore
  const offered = new Map<string, string>();
  const late: string[] = [];
  for (const place of PLACES) {
    const walked = await pressAll(page, place);
    offered.set(place, walked.pressed.join(' | '));
    late.push(...walked.late);
  }
  expect(late).toEqual([]);
  expect(complaints.filter((line) => !line.includes('status of 401'))).toEqual([]);
  return { page, offered, close: () => context.close() };
}

const ownNotes = async (page: Page): Promise<string[]> => {
  const before = new Set(make.walk.events.map(({ id }) => id));
  return (await keptEvents(page)).filter(({ id, streamId }) => !streamId.includes(':demo-') && !before.has(id)).map(({ kind }) => kind); // prettier-ignore
};
const asideAt = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    const opening = indexedDB.open('vatside');
    await new Promise((resolve) => opening.addEventListener('success', resolve));
    const counting = opening.result.transaction('setAside').objectStore('setAside').count();
    await new Promise((resolve) => counting.addEventListener('success', resolve));
    opening.result.close();
    return counting.result;
  });

describe('a device that may not note everything', () => {
  it('is offered on no place what would be refused: a reader nothing, a helper what is seen and read', async () => {
    const seeded = keepings().length;
    const reader = await walk('reader');
    expect(await ownNotes(reader.page)).toHaveLength(seeded);
    expect(await asideAt(reader.page)).toBe(0);
    await reader.close();

    const helper = await walk('helper');
    const noted = await ownNotes(helper.page);
    expect(noted.slice(seeded)).toEqual(expect.arrayContaining(['noted', 'tasted', 'answered', 'pieceTurned']));
    expect(await asideAt(helper.page)).toBe(0);
    const offered = (place: string): string => helper.offered.get(place) ?? '';
    expect(offered('/record/ash')).toMatch(/Sour.*Keep the note.*Keep the tasting/);
    expect(offered('/brine')).toMatch(/^Note a check.*Temperature/);
    expect(offered('/bench/lots')).toContain('Count what is left');
    expect(offered('/ageing')).not.toContain('Wash: Rowan 1');
    // What is for makers is told in its place, before anything is typed.
    await helper.page.evaluate(() => history.pushState(null, '', '/ageing/new'));
    await helper.page.getByText('this is for a maker to note').waitFor();
    expect(await helper.page.getByRole('textbox').count()).toBe(0);
    await helper.close();
  });
});
