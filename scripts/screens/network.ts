import type { Page } from 'playwright-core';
import type { Role } from '../../src/record/may-note.ts';
import { batchRows } from '../../tests/faults/load/grown-store.ts';
import { sendEvents } from '../../tests/browser/tasks/seeded.ts';
import type { TestServer } from '../../tests/browser/server.ts';
import { lookAt, SHARED_AS, tap, VAT_SIZES, type Beginning, type Group } from './sitting.ts';
import { potAt } from './walked.ts';

/** Devices of the invented teaching dairy: its people are tables. */
const DEVICES: readonly (readonly [name: string, role: Role])[] = [
  ['Projector', 'reader'],
  ['Phone of table 4', 'reader'],
  ['Phone of table 2', 'helper'],
  ['Phone by the sink', 'helper'],
  ['Tablet at the long vat', 'maker'],
];
const MAKES = 30;
/** Batches of the grown store that are about a day apart. */
const A_DAY = 58;

/** The code that counts now, for a role. */
const codeFor = (server: TestServer, role: Role): string => server.share?.sharing.code.renew(role).code ?? '';

/** Where the network finds the server. */
const netOf = (server: TestServer): string => server.share?.sharing.addresses().find((one) => one.includes(SHARED_AS)) ?? ''; // prettier-ignore

/** Pairs the devices of the dairy, one after the other. */
async function pairedDairy(server: TestServer): Promise<Beginning> {
  const { port } = new URL(netOf(server));
  for (const [index, [name, role]] of DEVICES.entries()) {
    const body = JSON.stringify({ code: codeFor(server, role), name, logDevice: `device-${index}` });
    const answer = await fetch(`http://127.0.0.1:${port}/api/pair`, { method: 'POST', headers: { 'content-type': 'application/json' }, body }); // prettier-ignore
    if (!answer.ok) throw new Error(`${name} was not paired: ${answer.status}`);
  }
  codeFor(server, 'helper');
  return { at: Date.now(), path: '/sharing' };
}

/** A month of finished makes. */
async function manyMakes(server: TestServer): Promise<Beginning> {
  let at = 0;
  for (let nth = 0; nth < MAKES; nth++) {
    const events = batchRows({ nth: nth * A_DAY, seed: 3 }).map(({ text }): unknown => JSON.parse(text));
    await sendEvents(server.url, events);
    at = Math.max(at, ...events.map((event) => (typeof event === 'object' && event !== null && 'happenedAt' in event ? Number(event.happenedAt) : 0))); // prettier-ignore
  }
  return { at: at + 3_600_000, path: '/' };
}

/** The shared server of the sitting that goes on, which its states must reach by another address. */
let helpersServer: TestServer | null = null;

async function openAsHelper(page: Page, path: string): Promise<void> {
  if (helpersServer === null) throw new Error('No server is shared.');
  await page.goto(`${netOf(helpersServer)}/pair#${codeFor(helpersServer, 'helper')}`);
  await page.getByLabel('What this device is called').fill('Phone by the sink');
  await page.getByRole('button', { name: 'Pair', exact: true }).click();
  await page.getByText('Paired', { exact: true }).waitFor();
  await page.goto(netOf(helpersServer) + path);
  await page.locator('.vat-until').waitFor();
}

/** Several devices on one server, and much on it. */
export const NETWORK: Group = {
  title: 'Sharing, and a server full of makes',
  sittings: [
    {
      sizes: ['phone', 'wide', 'desk'],
      arrange: () => Promise.resolve({ at: Date.now(), path: '/pair' }),
      states: [{ name: 'pair', sees: 'A device asks to be let in: what it is called, and the code, on keys for wet fingers.', reach: async (page) => {
            for (const digit of '20489') await page.getByRole('button', { name: digit, exact: true }).click();
          } }], // prettier-ignore
    },
    {
      sizes: ['phone', 'wide', 'desk'],
      sharedAs: SHARED_AS,
      arrange: pairedDairy,
      states: [
        { name: 'sharing', sees: 'Sharing, at the machine that shares: the code, its picture for a camera, and what it gives.', reach: (page) => page.getByText('Tablet at the long vat').waitFor() }, // prettier-ignore
        { name: 'sharing-devices', sees: 'The devices that were let in, each with the way to take its access away.', look: lookAt('#sharing-devices') }, // prettier-ignore
      ],
    },
    {
      sizes: VAT_SIZES,
      sharedAs: SHARED_AS,
      arrange: (server) => {
        helpersServer = server;
        return potAt(server, 'set', { minutes: 4 });
      },
      states: [{ name: 'helper-vat', sees: 'The vat on a helper’s device: it notes readings; ending the step is for makers.', reach: (page) => openAsHelper(page, '/vat/ash') }], // prettier-ignore
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'set', { minutes: 4 }),
      before: (context) => context.route('**/api/events', (route) => route.fulfill({ status: 507, body: '{}' })),
      states: [
        { name: 'server-full', sees: 'The server’s disk is full: the make goes on, and what is noted waits on this device.', reach: async (page) => {
            await page.locator('.vat-until').waitFor();
            await tap(page, 'Note a reading');
            await page.locator('.pad-tile').nth(2).click();
            await page.clock.fastForward(500);
            await page.locator('.pad-tile').nth(4).click();
            await page.clock.fastForward(500);
            await page.getByText('disk is full').waitFor();
            await page.clock.fastForward(11_000);
          } }, // prettier-ignore
      ],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'set', { minutes: 4 }),
      states: [
        { name: 'device-full', sees: 'The device itself has no room: what is not kept is named, and can be saved again.', reach: async (page) => {
            await page.locator('.vat-until').waitFor();
            await page.evaluate(() => {
              IDBObjectStore.prototype.put = () => {
                throw new DOMException('over the quota', 'QuotaExceededError');
              };
            });
            await tap(page, 'Note a reading');
            await page.locator('.pad-tile').nth(2).click();
            await page.clock.fastForward(500);
            await page.locator('.pad-tile').nth(4).click();
            await page.clock.fastForward(500);
            await page.getByText('Not saved on this device').waitFor();
          } }, // prettier-ignore
      ],
    },
    {
      sizes: ['phone', 'wide', 'desk'],
      arrange: manyMakes,
      states: [{ name: 'find-make', sees: 'Finding a make among all that were made: by a name, a lot, or words of a note.', reach: async (page) => {
            await page.getByRole('searchbox').fill('clean break');
            await page.locator('.today-find .today-lines li').first().waitFor();
            await page.evaluate(() => (document.activeElement instanceof HTMLElement ? document.activeElement.blur() : undefined)); // prettier-ignore
            await page.waitForTimeout(900);
          },
          look: (page) => page.locator('.today-find').evaluate((one) => {
            one.scrollIntoView({ block: 'start' });
            scrollBy(0, -80);
          }) }], // prettier-ignore
    },
  ],
};
