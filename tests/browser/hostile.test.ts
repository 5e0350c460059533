import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { hostileTexts } from '../hostile-texts.ts';
import { opened } from '../faults/attack/opened-make.ts';
import { newEvent } from '../../src/record/new-event.ts';
import { ALL_KINDS } from '../../src/record/keeping-events.ts';
import { SIZES, visit } from './chromium.ts';
import { startTestServer } from './server.ts';
import { browser, server } from './standing.ts';

/** Names and notes that would be a page of their own if a page let them. */
const TEXTS = hostileTexts('markup', 'attribute', 'template', 'json', 'direction', 'control');
const AT = Date.UTC(2026, 10, 29, 8);

/** Every place of the app that shows what somebody typed; the print of each is looked at too. */
const PLACES = [
  '/', '/plan', '/day', '/makes', '/makes/hostile', '/bench', '/bench/lots', '/record/ash', '/record/ash/labels', '/record/ash/compare', '/record/ash/write-up', '/record/ash/instruments',
  '/record/ash?sheet=make', '/ageing', '/ageing/rowan', '/brine', '/paper', '/paper/ash', '/paper/ash/inspector', '/paper/ash/home', '/paper/ash/student', '/paper/ash/handOut', '/share', '/pots', '/pots/wall', '/vat/ash',
  '/makes/hostile/change', '/plan/buying', '/bench/pasteurise', '/record/ash/labels/class', '/ageing/new', '/share/hostile', '/sharing', '/gauge',
] as const; // prettier-ignore

/** Not walked with the others: it has a server of its own, which is shared. */
const PAIRING = '/pair';

/** What would be an element made of words: none of these has a place in the app. */
const MADE =
  'iframe, object, embed, base, [onerror], [onload], [onfocus], [onmouseover], [srcdoc], a[href^="javascript:" i], img[src="x"], body style, body script:not([src]), form[action^="http"]';

/** The store of somebody who typed such a text wherever one can be typed. */
async function seed(): Promise<void> {
  const all = TEXTS.join(' ').slice(0, 3900);
  const [text = ''] = TEXTS;
  const short = (at: number): string => (TEXTS[at % TEXTS.length] ?? text).slice(0, 80);
  const [make, piece] = opened();
  if (make === undefined || piece === undefined) throw new Error('No make to begin with.');
  const lines: [streamId: string, kind: string, body: object][] = [
    ['batch:ash', 'batchOpened', { ...make.body, name: TEXTS[0], lotCode: TEXTS[1] }],
    ['batch:ash', 'stepStarted', { stepId: 'warm' }],
    ...TEXTS.map((note): [string, string, object] => ['batch:ash', 'noted', { text: note }]),
    ['batch:ash', 'timerSet', { timerId: 't', label: short(0), startedAt: AT, lastsMs: 60_000 }],
    ['batch:ash', 'mishap', { what: short(1), note: all }],
    ['batch:ash', 'labelled', { name: short(0), lotCode: short(1), packedOn: short(2), keptAtC: 4, bestBefore: short(3) }],
    ['batch:ash', 'tasted', { words: all }],
    ...TEXTS.map((_, at): [string, string, object] => [`piece:p${at}`, 'pieceMade', { ...piece.body, name: short(at), cheese: short(at + 1), lotCode: short(at).slice(0, 40) }]),
    ['piece:rowan', 'pieceMade', { ...piece.body, name: short(0), cheese: short(2), place: 'place:cave' }],
    ['piece:rowan', 'pieceLooked', { grew: short(0).slice(0, 40), words: all }],
    ['place:cave', 'placeTold', { name: short(1), kind: 'cave' }],
    ['brine:one', 'brineMade', { name: short(0), madeOn: '2026-11-01', volumeL: 5, strength: { value: 18, unit: 'percent-by-mass' }, aimPercent: 18 }],
    ...TEXTS.map((_, at): [string, string, object] => [`lot:l${at}`, 'lotReceived', { lotKind: 'rennet', name: short(at), form: short(at).slice(0, 40), note: all }]),
    ['device:d', 'deviceNamed', { name: short(0) }],
    ['make:hostile', 'makeSaved', { make: { ...hostileMake(make.body['make']) } }],
  ]; // prettier-ignore
  const devices = { state: { deviceId: 'typist', deviceSeq: 0, clock: undefined as string | undefined } };
  const events = lines.map(([streamId, kind, body], index) => {
    const made = newEvent({ kind, body, streamId, happenedAt: AT + index, loggedAt: AT + index, person: short(index), device: devices.state, randomBytes: new Uint8Array(10).fill(index), kinds: ALL_KINDS }); // prettier-ignore
    devices.state = made.device;
    return made.event;
  });
  for (let from = 0; from < events.length; from += 100) {
    const answer = await fetch(`${server.url}/api/events`, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ events: events.slice(from, from + 100) }) }); // prettier-ignore
    expect(await answer.text()).not.toContain('refused');
  }
}

/** The make under another id, its words hostile wherever it is words alone. */
function hostileMake(make: unknown): object {
  if (typeof make !== 'object' || make === null) throw new Error('No make.');
  return { ...make, id: 'hostile', name: TEXTS[0], about: TEXTS.slice(0, 6).join(' ') };
}

/** Screens come in parts: this one is whole once nothing more is added to it. */
async function settled(page: Page): Promise<void> {
  for (let before = ''; ;) {
    const now = await page.locator('body').innerText();
    if (now === before) return;
    before = now;
    await page.waitForTimeout(150);
  }
}

const foundOn = (
  page: Page,
): Promise<{ readonly ran: boolean; readonly made: readonly string[]; readonly words: boolean }> =>
  page.evaluate(
    (selector) => ({
      ran: 'pwned' in window,
      made: [...document.querySelectorAll(selector)].map((one) => one.outerHTML.slice(0, 200)),
      words: document.body.textContent.includes('window.pwned=1'),
    }),
    MADE,
  );

describe('the places that are walked', () => {
  it('are all that the app has', () => {
    const sources = ['app.tsx', 'places.tsx'].map((file) => readFileSync(new URL(`../../src/doors/web/${file}`, import.meta.url), 'utf8')); // prettier-ignore
    const routes = [...sources.join('').matchAll(/<Route path="([^"]+)"/g)].map(([, path = '']) => path);
    expect(routes.length).toBeGreaterThan(25);
    const walked = (route: string): boolean => PLACES.some((place) => new RegExp(`^${route.replaceAll(/:\w+/g, '[^/?]+')}(\\?|$)`).test(place)); // prettier-ignore
    expect(routes.filter((route) => !walked(route) && route !== PAIRING)).toEqual([]);
  });
});

describe('texts that want to be more than texts', () => {
  it('stay words on every screen and every print: no script runs, no element is made of them, no rule of the page is broken', async () => {
    await seed();
    const { context, page } = await visit({ browser, size: SIZES.desk });
    const heard: string[] = [];
    page.on('dialog', (dialog) => {
      heard.push(`dialog: ${dialog.message()}`);
      void dialog.dismiss();
    });
    page.on('console', (line) => {
      if (/content security policy/i.test(line.text())) heard.push(`policy: ${line.text()}`);
    });
    page.on('pageerror', (error) => heard.push(`error: ${error.message}`));
    await page.addInitScript(() => {
      document.addEventListener('securitypolicyviolation', (event) => console.error(`Content Security Policy: ${event.violatedDirective} ${event.blockedURI}`)); // prettier-ignore
    });
    await page.clock.setFixedTime(AT + 3_600_000);
    await page.goto(server.url);
    await page
      .getByText(TEXTS[0] ?? '', { exact: false })
      .first()
      .waitFor();
    let shown = 0;
    for (const place of PLACES) {
      await page.evaluate((address) => {
        history.pushState(null, '', address);
      }, place);
      await page.locator('main').first().waitFor();
      await settled(page);
      for (const media of ['screen', 'print'] as const) {
        await page.emulateMedia({ media });
        const found = await foundOn(page);
        expect({ place, media, ...found }).toEqual({ place, media, ran: false, made: [], words: expect.any(Boolean) as boolean }); // prettier-ignore
        if (found.words) shown += 1;
      }
    }
    expect(heard).toEqual([]);
    // They were there to be seen: on most of these places at least one stands.
    expect(shown).toBeGreaterThan(PLACES.length);
    await context.close();
  });

  it('stay words as names of devices: the list keeps its shape, and what no eye sees is refused', async () => {
    const shared = await startTestServer({ names: [] });
    const sharing = shared.share?.sharing;
    const port = new URL(sharing?.addresses().at(0) ?? shared.url).port;
    const pair = async (name: string): Promise<number> => {
      const body = JSON.stringify({ code: sharing?.code.renew('helper').code, name, logDevice: 'phone' });
      return (await fetch(`http://127.0.0.1:${port}/api/pair`, { method: 'POST', headers: { 'content-type': 'application/json' }, body })).status; // prettier-ignore
    };
    const names = ['W'.repeat(80), ...hostileTexts('markup', 'attribute', 'template', 'json', 'formula', 'path')].filter((name) => !/\p{C}/u.test(name)); // prettier-ignore
    for (const name of names.slice(0, 25)) expect({ name, status: await pair(name) }).toEqual({ name, status: 200 });
    for (const name of hostileTexts('direction', 'control').filter((text) => /\p{C}/u.test(text))) expect({ name, status: await pair(name) }).toEqual({ name, status: 400 }); // prettier-ignore
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await page.goto(`${shared.url}/sharing`);
    await page.getByText(TEXTS[0] ?? '', { exact: true }).waitFor();
    expect(await page.locator('.sharing-devices li').count()).toBe(25);
    expect(await foundOn(page)).toEqual({ ran: false, made: [], words: true });
    const edges = await page.locator('.sharing-devices button').evaluateAll((all) => [...new Set(all.map((one) => Math.round(one.getBoundingClientRect().right)))]); // prettier-ignore
    expect(edges).toHaveLength(1);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(SIZES.phone.width);
    // In the address the code is eight digits or nothing.
    await page.goto(`${shared.url}${PAIRING}#<img src=x onerror="window.pwned=1">`);
    const field = page.getByLabel('What this device is called');
    for (const name of [TEXTS[0] ?? '', 'W'.repeat(80)]) await field.fill(name);
    expect(await foundOn(page)).toEqual({ ran: false, made: [], words: false });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(SIZES.phone.width);
    expect(complaints).toEqual([]);
    await context.close();
    await shared.close();
  });
});
