import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { hostileTexts } from '../hostile-texts.ts';
import { opened } from '../faults/attack/opened-make.ts';
import { newEvent } from '../../src/record/new-event.ts';
import { ALL_KINDS } from '../../src/record/keeping-events.ts';
import { SIZES, visit } from './chromium.ts';
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

describe('the places that are walked', () => {
  it('are all that the app has', () => {
    const sources = ['app.tsx', 'places.tsx'].map((file) => readFileSync(new URL(`../../src/doors/web/${file}`, import.meta.url), 'utf8')); // prettier-ignore
    const routes = [...sources.join('').matchAll(/<Route path="([^"]+)"/g)].map(([, path = '']) => path);
    expect(routes.length).toBeGreaterThan(25);
    const walked = (route: string): boolean => PLACES.some((place) => new RegExp(`^${route.replaceAll(/:\w+/g, '[^/?]+')}(\\?|$)`).test(place)); // prettier-ignore
    expect(routes.filter((route) => !walked(route) && route !== '/pair')).toEqual([]);
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
        const found = await page.evaluate(() => ({
          ran: 'pwned' in window,
          made: [...document.querySelectorAll('iframe, object, embed, base, [onerror], [onload], [onfocus], [onmouseover], [srcdoc], a[href^="javascript:" i], img[src="x"], body style, body script:not([src]), form[action^="http"]')].map((one) => one.outerHTML.slice(0, 200)), // prettier-ignore
          words: document.body.textContent.includes('window.pwned=1'),
        }));
        expect({ place, media, ...found }).toEqual({ place, media, ran: false, made: [], words: expect.any(Boolean) as boolean }); // prettier-ignore
        if (found.words) shown += 1;
      }
    }
    expect(heard).toEqual([]);
    // They were there to be seen: on most of these places at least one stands.
    expect(shown).toBeGreaterThan(PLACES.length);
    await context.close();
  });
});
