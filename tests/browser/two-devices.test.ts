import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { SIZES, visit } from './chromium.ts';
import { button, goOn, later, planAndGetReady, tickAll, usual, verb, walkTo, weigh } from './maker.ts';
import { newEvent, type DeviceState } from '../../src/record/new-event.ts';
import type { Event } from '../../src/record/event.ts';
import { AT_THE_VAT, Hand, isInOrder } from './tasks/hand.ts';
import { keptEvents } from './tasks/kept.ts';
import { goTo, openAt, type Place } from './tasks/place.ts';
import { seedMake, sendEvents } from './tasks/seeded.ts';
import { browser, server } from './standing.ts';

/** What the record says happened, line by line. */
async function happened(page: Page, record: string): Promise<string> {
  await page.goto(record);
  await page.getByRole('heading', { name: 'What happened' }).waitFor();
  return page.locator('.record-lines').first().innerText();
}

describe('one make on two devices', () => {
  it('runs on a desk with a phone beside it; both go on while the server is out of reach, and end with the same record', async () => {
    const desk = await visit({ browser, size: SIZES.desk });
    const phone = await visit({ browser, size: SIZES.phone });
    await planAndGetReady(desk.page, { url: server.url, pHMeter: true });
    await tickAll(desk.page);
    await goOn(desk.page);
    await walkTo(desk.page, 'Let it ripen', usual);
    // The phone comes to the same pot, by its clock a minute behind.
    await phone.page.clock.install({ time: (await desk.page.evaluate(() => Date.now())) - 60_000 });
    await phone.page.goto(desk.page.url());
    await expect.poll(() => verb(phone.page), { timeout: 20_000 }).toBe('Let it ripen');

    // Each has the whole app by now, as after a first minute at the vat.
    for (const { page } of [desk, phone])
      await page.evaluate(async () => navigator.serviceWorker.ready.then(() => null));
    // Nobody reaches the server: the desk ends the step, the phone notes a temperature; neither loses a thing.
    await desk.context.setOffline(true);
    await phone.context.setOffline(true);
    await walkTo(desk.page, 'Leave it to set', usual);
    await button(phone.page, 'Note a reading').click();
    await phone.page.clock.fastForward(500);
    await phone.page.getByRole('region', { name: 'Temperature, °C' }).locator('.pad-tile').nth(2).click();
    await phone.page.clock.fastForward(500);
    await phone.page.locator('.pad-tile').nth(4).click();
    const said = /Temperature ([\d.]+)/.exec(await phone.page.locator('.noted-words').innerText())?.[1] ?? '';
    expect(said).not.toBe('');

    await desk.context.setOffline(false);
    await phone.context.setOffline(false);
    await desk.page.clock.fastForward(60_000);
    await phone.page.clock.fastForward(60_000);
    await expect.poll(() => verb(phone.page), { timeout: 60_000 }).toBe('Leave it to set');
    await expect.poll(() => desk.page.locator('.vat-strip').innerText(), { timeout: 60_000 }).toContain('Saved twice');

    // The desk goes on to the end; the phone follows.
    await later(desk.page, 12);
    await button(desk.page, 'Flecks').click();
    await walkTo(desk.page, 'Drain and weigh', usual);
    await weigh(desk.page, { coarse: '1.6_', fine: '1.65' });
    await walkTo(desk.page, 'Weigh, label, close', usual);
    await phone.page.clock.fastForward(6 * 3_600_000);
    await expect.poll(() => verb(phone.page), { timeout: 60_000 }).toMatch(/Weigh, label, close/);

    const record = desk.page.url().replace('/vat/', '/record/');
    const onDesk = await happened(desk.page, record);
    expect(onDesk).toContain(said);
    expect(onDesk).toContain('1.65');
    await expect.poll(() => happened(phone.page, record), { timeout: 60_000 }).toBe(onDesk);
    expect([...desk.complaints, ...phone.complaints].filter((line) => !/ERR_INTERNET_DISCONNECTED|Failed to fetch/.test(line))).toEqual([]); // prettier-ignore
    await desk.context.close();
    await phone.context.close();
  }, 600_000);
});

/** What a phone out of reach noted of the same rennet, two minutes after the tablet by the sink. */
function notedAgain(events: readonly Event[], streamId: string): Event[] {
  const ended = events.find(({ kind, body }) => kind === 'stepEnded' && body['stepId'] === 'add-rennet');
  if (ended === undefined) throw new Error('the rennet is not in');
  const at = ended.happenedAt + 120_000;
  let device: DeviceState = { deviceId: 'phone', deviceSeq: 0, clock: undefined };
  return events
    .filter(
      ({ happenedAt, deviceSeq, kind }) =>
        happenedAt === ended.happenedAt && deviceSeq >= ended.deviceSeq - 1 && kind !== 'prepared',
    ) // prettier-ignore
    .map(({ kind, body }, index) => {
      const made = newEvent({ kind, body, streamId, happenedAt: at, loggedAt: at, person: '', device, randomBytes: new Uint8Array(10).fill(200 + index) }); // prettier-ignore
      device = made.device;
      return made.event;
    });
}

describe('one step noted on two devices', () => {
  const phone: Place = { name: 'phone', size: SIZES.phone, hasTouch: true };
  it('is asked about once they have met, holds nothing up, and is settled with one tap', async () => {
    const make = await seedMake({ url: server.url, stepId: 'set', minutes: 4, name: 'Rowan' });
    const again = notedAgain(make.walk.events, make.walk.streamId);
    expect(again.map(({ kind }) => kind)).toEqual(['added', 'stepEnded', 'stepStarted']);
    await sendEvents(server.url, again);
    const opened = await openAt({ browser, place: phone, at: make.at });
    const { page, context, complaints } = opened;
    await goTo({ opened, place: phone, url: server.url + make.path });
    const question = page.locator('.vat-silence');
    await expect.poll(() => question.innerText()).toMatch(/Two devices noted “.+”, at \d\d:\d\d and \d\d:\d\d/);
    expect(await verb(page)).toBe('Leave it to set');
    await page.locator('.vat-until').waitFor();
    await isInOrder(page, AT_THE_VAT);
    const shots = process.env['VATSIDE_SHOTS'];
    if (shots !== undefined) await page.screenshot({ path: `${shots}/twice.png` });
    await new Hand(page).tap('The same');
    await question.waitFor({ state: 'detached' });
    const kept = await keptEvents(page);
    expect(kept.filter(({ kind }) => kind === 'retracted').map(({ body }) => body['replaces'])).toEqual(again.map(({ id }) => id).reverse()); // prettier-ignore
    expect(await verb(page)).toBe('Leave it to set');
    expect(complaints).toEqual([]);
    await context.close();
  });
});
