import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, it } from 'vitest';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { seedPots } from './pots.ts';
import { walksUnder, walkScreens } from './walk.ts';

/** Every screen once where there is less of something: less width, fewer words to a line, no network. */

let browser: Browser;
let server: TestServer;
let at: number;
beforeAll(async () => {
  [browser, server] = await Promise.all([launchChromium(), startTestServer()]);
  at = await seedPots(server.url);
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

describe.each(walksUnder([['offline', '320 px'], ['200 % text']]))('every screen, %s', (_, hardship) => {
  it('is in order: nothing for axe, nothing sideways, every word whole and in its place', async () => {
    await walkScreens({ browser, url: server.url, hardship, at });
  });
});
