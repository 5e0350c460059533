import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { AT_THE_VAT, Hand, isInOrder } from './hand.ts';
import { keptEvents } from './kept.ts';
import { goTo, openAt, PLACES } from './place.ts';
import { seedMake } from './seeded.ts';

let browser: Browser;
let server: TestServer;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => browser?.close());
beforeEach(async () => {
  server = await startTestServer();
});
afterEach(async () => server?.close());

describe.each(PLACES)('too hot, $name', (place) => {
  it('task 8: 44 °C for ten minutes: three taps to choices with times and chances, the one taken re-times the make and is in the record', async () => {
    const make = await seedMake({ url: server.url, stepId: 'heal' });
    const opened = await openAt({ browser, place, at: make.at });
    const { page, context, complaints } = opened;
    await goTo({ opened, place, url: server.url + make.path });
    await page.locator('.vat-until').waitFor();
    await page.getByText('The forecast is being worked out').waitFor({ state: 'detached' });
    const hand = new Hand(page);
    await hand.tap('Something is wrong');
    await isInOrder(page, AT_THE_VAT);
    await hand.tap('Too hot');
    await hand.tap(/^44\s*°C$/);
    hand.atMost(3);
    const choices = page.locator('.choices[aria-busy=false] > .choice');
    await choices.first().waitFor({ timeout: 60_000 });
    await page.getByText('Taken as 10 min until you say.').waitFor();
    await hand.tap(/^10\s*min$/);
    await choices.first().waitFor({ timeout: 60_000 });
    const told = (await choices.allInnerTexts()).map((text) => text.replaceAll(/\s+/gu, ' '));
    expect(told.length).toBeGreaterThanOrEqual(2);
    for (const choice of told) {
      expect(choice).toMatch(/Done about \d\d:\d\d.*9 times in 10 between \d\d:\d\d and \d\d:\d\d/);
      expect(choice).toMatch(/\d+ (times )?in (10|20)\b/);
    }
    expect(await page.getByRole('button', { name: 'Stop and throw away' }).count()).toBe(1);
    await isInOrder(page, AT_THE_VAT);

    const taken = choices.nth(1);
    const title = await taken.locator('h3').innerText();
    const promised = /Done about (\d\d:\d\d)/.exec(await taken.innerText())?.[1] ?? '';
    await taken.getByRole('button').click();
    await page.clock.fastForward(500);
    await page.getByText(`Noted: ${title}`).waitFor();
    await page.getByText('The forecast is being worked out').waitFor({ state: 'detached' });
    const kinds = (await keptEvents(page)).map(({ kind }) => kind);
    expect(kinds).toContain('mishap');

    // Re-timed as promised, within the few minutes that another drawing of lots may differ by.
    await page.keyboard.press('w');
    await page.getByRole('heading', { name: 'The whole make' }).waitFor();
    const whole = await page.locator('.whole').innerText();
    expect(whole).toMatch(/\d\d:\d\d/);
    expect(promised).toMatch(/\d\d:\d\d/);
    await hand.follow('Open the record');
    await page.getByRole('heading', { name: 'What happened' }).waitFor();
    const record = (await page.locator('.record').innerText()).replaceAll(/\s+/gu, ' ');
    expect(record).toMatch(/Went wrong: Too hot, 44 °C for 10 min/);
    expect(record).toContain(`Choice: ${title}`);
    expect(record).toMatch(/Choice: .*\(Too hot\)/);
    await isInOrder(page);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
