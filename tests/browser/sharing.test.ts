import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Role } from '../../src/record/may-note.ts';
import { violations } from './axe.ts';
import { launchChromium, SIZES, visit } from './chromium.ts';
import { startTestServer, type TestServer } from './server.ts';
import { keptEvents } from './tasks/kept.ts';
import { seedMake, type Seeded } from './tasks/seeded.ts';

/** A name that browsers take for another machine: plain HTTP under it is no secure context. */
const NAME = 'dairy.local';
let server: TestServer;
let browser: Browser;
let make: Seeded;
let net = '';

beforeAll(async () => {
  server = await startTestServer({ names: [NAME] });
  browser = await launchChromium([`--host-resolver-rules=MAP ${NAME} 127.0.0.1`]);
  net = server.share?.sharing.addresses().find((address) => address.includes(NAME)) ?? '';
  make = await seedMake({ url: server.url, stepId: 'set', minutes: 4, name: 'Ash' });
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: true });
const newCode = (role: Role): string => server.share?.sharing.code.renew(role).code ?? '';

/** Opens the address of the picture and pairs. */
async function pair(page: Page, role: Role, name: string): Promise<void> {
  await page.goto(`${net}/pair#${newCode(role)}`);
  await page.getByLabel('What this device is called').fill(name);
  await button(page, 'Pair').click();
  await page.getByText('Paired', { exact: true }).waitFor();
}

/** Notes a temperature by two tiles. */
async function noteTemperature(page: Page): Promise<void> {
  await button(page, /^Note a reading/).click();
  await page.clock.fastForward(500);
  await page.getByRole('region', { name: 'Temperature, °C' }).locator('.pad-tile').nth(2).click();
  await page.clock.fastForward(500);
  await page.locator('.pad-tile').nth(4).click();
  await page.locator('.noted-words').waitFor();
  await page.clock.fastForward(500);
}

const readingsAt = async (): Promise<number> => {
  const answer = await fetch(`${server.url}/api/streams/${make.walk.streamId}/events`);
  const { events } = (await answer.json()) as { events: { event: { kind: string; deviceId: string; body: { sample?: string } } }[] }; // prettier-ignore
  return events.filter(({ event }) => event.kind === 'reading').length;
};

describe('devices on the network', () => {
  it('pair over plain HTTP, note what their role may, and lose no entry when access is taken away', async () => {
    const phone = await visit({ browser, size: SIZES.phone });
    const before = await readingsAt();
    // Whoever is not paired sees the pairing screen, whatever page was asked for.
    await phone.page.goto(net);
    await phone.page.getByRole('heading', { name: 'Pair this device' }).waitFor();
    expect(await violations(phone.page)).toEqual([]);
    for (const digit of '00000000') await button(phone.page, digit).click();
    await button(phone.page, 'Pair').click();
    await phone.page.getByText('That is not the code that counts now.').waitFor();

    await pair(phone.page, 'helper', 'Phone by the sink');
    expect(phone.page.url()).toBe(`${net}/pair`);
    expect(await phone.page.evaluate(() => [isSecureContext, document.cookie, JSON.stringify(localStorage)])).toEqual([false, '', expect.not.stringMatching(/[\w-]{16}\.[\w-]{43}/)]); // prettier-ignore
    await phone.page.clock.install({ time: make.at });
    await phone.page.goto(net + make.path);
    await phone.page.getByText('Ending a step and deciding is for makers.').waitFor();
    expect(await phone.page.locator('.vat-main:visible').count()).toBe(0);
    await noteTemperature(phone.page);
    await expect.poll(readingsAt).toBe(before + 1);

    // The owner takes its access away: the phone hears of it at once, goes on noting, and sends it once it is let in again.
    const owner = await visit({ browser, size: SIZES.desk });
    await owner.page.goto(`${server.url}/sharing`);
    await owner.page.getByText('Phone by the sink').waitFor();
    expect(await violations(owner.page)).toEqual([]);
    await button(owner.page, 'Take away the access of Phone by the sink').click();
    await owner.page.getByText('None yet.').waitFor();
    await phone.page.getByText('This device is not paired').waitFor();
    await noteTemperature(phone.page);
    const kept = await keptEvents(phone.page);
    expect(kept.filter(({ kind }) => kind === 'reading')).toHaveLength(before + 2);
    expect(await readingsAt()).toBe(before + 1);
    await phone.page.getByRole('link', { name: 'Pair it' }).click();
    await pair(phone.page, 'helper', 'Phone by the sink');
    await expect.poll(readingsAt).toBe(before + 2);

    const complaints = [...phone.complaints, ...owner.complaints].filter((line) => !/status of 40[13]/.test(line));
    expect(complaints).toEqual([]);
    await phone.context.close();
    await owner.context.close();
  });

  it('show a class the forecast and the record, without anything to note', async () => {
    const { page, context } = await visit({ browser, size: SIZES.tablet });
    await pair(page, 'reader', 'Class 7');
    await page.clock.install({ time: make.at });
    await page.goto(net + make.path);
    await page.getByText('Noting is for makers and helpers.').waitFor();
    await page.locator('.vat-until').waitFor();
    expect(await page.locator('.vat-button:visible').evaluateAll((all) => all.map((one) => one.textContent))).not.toContain('Note a reading'); // prettier-ignore
    const held = (await keptEvents(page)).length;
    for (const key of ['Enter', 'r', 'p', 'u']) await page.keyboard.press(key);
    await page.clock.fastForward(500);
    expect(await page.locator('.vat-card h1, h1.vat-verb').first().innerText()).toBe('Leave it to set');
    expect((await keptEvents(page)).length).toBe(held);
    await button(page, 'Whole make').click();
    await page.getByRole('heading', { name: 'The whole make' }).waitFor();
    await context.close();
  });
});
