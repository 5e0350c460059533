import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { act, due, heard, now, readTooHot, ripening, saidSilent, spyOnSound, swept, watch } from './bell-ear.ts';
import { SIZES, visit } from './chromium.ts';
import { button, goOn, later, planAndGetReady, tickAll, verb } from './maker.ts';
import { browser, server } from './standing.ts';

describe('the bell', () => {
  it('is tried beside the tap, louder by a tap, and gives a second clock to who cannot hear it', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await spyOnSound(context);
    await planAndGetReady(page, { url: server.url, pHMeter: false });
    await tickAll(page);
    await button(page, /^Bell test/).click();
    await page.clock.fastForward(500);
    await expect.poll(async () => (await heard(page)).length).toBeGreaterThanOrEqual(6);
    expect((await heard(page)).map(({ hz }) => Math.round(hz)).filter((hz) => hz === 700)).toHaveLength(2);
    expect(Math.max(...(await heard(page)).map(({ hz }) => hz))).toBeLessThanOrEqual(3000);
    const before = await page.evaluate(() => localStorage.getItem('vatside.bell-volume'));
    await button(page, /^Louder$/).click();
    await page.clock.fastForward(500);
    expect(await page.evaluate(() => localStorage.getItem('vatside.bell-volume'))).not.toBe(before);
    await button(page, /^No$/).click();
    await page.clock.fastForward(500);
    expect(await page.getByRole('link', { name: 'Print the clock' }).getAttribute('href')).toMatch(/sheet=make$/);
    const [download] = await Promise.all([page.waitForEvent('download'), button(page, 'Put the times into my calendar').click()]); // prettier-ignore
    const text = readFileSync(await download.path(), 'utf8');
    expect(text.match(/BEGIN:VALARM/g)?.length).toBeGreaterThan(8);
    expect(text.replaceAll('\r\n ', '')).toMatch(/SUMMARY:.*: Keep warm and turn: test/);
    expect(await violations(page, ['target-size'])).toEqual([]);
    await page.clock.fastForward(500);
    await button(page, /^Yes$/).click();
    await page.getByText('1 still open').waitFor(); // the thermometer in ice water
    expect(complaints).toEqual([]);
    await context.close();
  }, 180_000);

  it('rings within a second of its time, after six hours too, and says how late it is after a sleep', async () => {
    const { context, page, complaints } = await ripening({ browser, url: server.url });
    const startedAt = await now(page);
    await later(page, 44.5);
    await watch(page, 40);
    await due(page).filter({ hasText: '45 min are over' }).waitFor();
    const knocks = (await heard(page)).filter(({ hz }) => hz === 700).map(({ at }) => at - startedAt - 45 * 60_000);
    // Begun a moment before `startedAt` was read: at most that moment early.
    const last = knocks.at(-1) ?? Number.NaN;
    expect(last).toBeGreaterThan(-3_000);
    expect(last).toBeLessThan(1_000);
    await button(page, 'Heard').last().click();
    await page.clock.fastForward(500);

    await page.clock.fastForward('06:00:00');
    await button(page, /^No, still/).click(); // asked after so long a silence
    await page.clock.fastForward(500);
    await button(page, 'Set a timer').click();
    await page.clock.fastForward(500);
    const setAt = await now(page);
    await button(page, /^5.min$/).click();
    await page.clock.fastForward(290_000);
    const counted = (await heard(page)).length;
    await watch(page, 14);
    await due(page).filter({ hasText: 'Timer: 5' }).waitFor();
    const rang = (await heard(page)).slice(counted).filter(({ hz }) => hz === 700)[0]?.at ?? Number.NaN;
    console.log(`five minutes after six hours: ${rang - setAt - 300_000} ms after the tap's time`);
    expect(Math.abs(rang - setAt - 300_000)).toBeLessThan(1_100); // the tap itself is stamped by the second

    // Twenty minutes asleep.
    await button(page, 'Set a timer').click();
    await page.clock.fastForward(500);
    await button(page, /^2.min$/).click();
    await page.clock.fastForward('20:00');
    await due(page).filter({ hasText: /Timer: 2.min are over[\s\S]*Was due \d\d:\d\d, 1[78] min ago/ }).waitFor({ timeout: 2000 }); // prettier-ignore
    const ages = (await due(page).allInnerTexts()).map((text) => /Was due (\d\d:\d\d)/.exec(text)?.[1] ?? '99:99');
    expect(ages).toEqual([...ages].sort());

    // A reload takes the sound away until a tap; what had rung is shown and does not ring again. Nothing is asked of the
    // page before the tap, because the browser takes that for one.
    await page.reload();
    await new Promise((resolve) => setTimeout(resolve, 4_000));
    await page.mouse.click(5, 5);
    await expect.poll(async () => (await saidSilent(page)).gone, { timeout: 5_000 }).not.toBeNull();
    const { at: saidAt, gone: goneAt } = await saidSilent(page);
    expect(saidAt).toBeGreaterThan(0);
    expect((goneAt ?? 0) - saidAt).toBeGreaterThan(500); // it stood there until the tap
    await due(page)
      .filter({ hasText: /Timer: 2.min are over/ })
      .waitFor();
    expect(await heard(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  }, 240_000);

  it('loses no call to a killed tab, and asks about a clock that jumped', async () => {
    const { context, page } = await ripening({ browser, url: server.url });
    await later(page, 30);
    const address = page.url();
    const diedAt = await now(page);
    await page.close();
    const again = await context.newPage();
    await again.clock.install({ time: diedAt + 21 * 60_000 });
    await again.goto(address);
    await due(again)
      .filter({ hasText: /45.min are over[\s\S]*Was due \d\d:\d\d, \d min ago/ })
      .waitFor();
    // Ended: what was missed of that step is over too.
    const aside = await due(again).count();
    await goOn(again);
    await expect.poll(() => verb(again)).not.toBe('Let it ripen');
    expect(await due(again).filter({ hasText: '45 min' }).count()).toBe(0);
    expect(aside).toBeGreaterThan(0);

    await again.clock.setSystemTime((await now(again)) + 10 * 60_000);
    await again.getByText(/clock went forward by 10.min/).waitFor();
    await button(again, 'Its clock was set').click();
    await again.getByText(/clock went forward/).waitFor({ state: 'detached' });
    await context.close();
  }, 240_000);

  it('is answered once for all devices, and rings an Act until somebody answers', async () => {
    const { context, page } = await ripening({ browser, url: server.url });
    const second = await visit({ browser, size: SIZES.tablet });
    await spyOnSound(second.context);
    await second.page.clock.install({ time: await now(page) });
    await second.page.goto(page.url());
    await expect.poll(() => verb(second.page), { timeout: 15_000 }).toBe('Let it ripen'); // once it has been fetched
    await second.page.mouse.click(5, 5);

    await readTooHot(page);
    await act(page).waitFor();
    await act(second.page).waitFor();
    expect(await page.locator('.vat-numbers').count()).toBe(0);
    expect(await act(page).getByRole('alert').locator('p').count()).toBe(4);
    const first = (await heard(page)).length;
    await watch(page, 30);
    const tones = (await heard(page)).slice(first).filter(({ hz }) => hz === 500);
    expect(tones.length).toBeGreaterThanOrEqual(3); // every eight seconds
    const hz = [...(await heard(page)).map((tone) => tone.hz), ...(await swept(page))];
    expect(Math.min(...hz)).toBeGreaterThanOrEqual(500);
    expect(Math.max(...hz)).toBeLessThanOrEqual(3000);

    await button(second.page, 'Off the heat').click();
    await act(page).waitFor({ state: 'detached' });
    const answered = (await heard(page)).length;
    await watch(page, 30);
    expect((await heard(page)).length).toBe(answered);
    // The answer taken back: it asks again, everywhere.
    await second.page.clock.fastForward(500);
    await button(second.page, 'Undo').click();
    await act(page).waitFor();
    await page.clock.fastForward(500);
    await button(page, 'Misread: strike it').click();
    await act(second.page).waitFor({ state: 'detached' });
    await page.goto(page.url().replace('/vat/', '/record/'));
    await page
      .getByText(/Bell at \d\d:\d\d, Too hot: 52.0.°C: Misread/)
      .first()
      .waitFor();
    await second.context.close();
    await context.close();
  }, 240_000);

  it('is clean to axe with an Act and with due calls showing, at both sizes and in every light', async () => {
    const { context, page } = await ripening({ browser, url: server.url });
    await later(page, 46);
    await due(page).first().waitFor();
    for (const shown of ['due', 'act'] as const) {
      if (shown === 'act') {
        await readTooHot(page);
        await act(page).waitFor();
      }
      for (const width of ['phone', 'tablet'] as const) {
        await page.setViewportSize(SIZES[width]);
        for (const light of ['Steam', 'Day', 'Dark']) {
          await expect.poll(() => page.locator('.vat-light').innerText()).toBe(light);
          expect(await violations(page, ['target-size', 'color-contrast-enhanced']), `${shown} ${width} ${light}`).toEqual([]); // prettier-ignore
          expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
            SIZES[width].width,
          );
          const low = await page.locator('.bell-calls button').evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 60).length); // prettier-ignore
          expect(low).toBe(0);
          if (process.env['BELL_SHOTS'] !== undefined) await page.screenshot({ path: `${process.env['BELL_SHOTS']}/${shown}-${width}-${light}.png` }); // prettier-ignore
          await button(page, /^Light/).click();
          await page.clock.fastForward(500);
        }
      }
    }
    await context.close();
  }, 240_000);
});
