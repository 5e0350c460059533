import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, it } from 'vitest';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { seedPots } from './pots.ts';
import { walksUnder, walkScreens } from './walk.ts';

/** Every screen once in each light that is not the day's, and in the colours that a reader forces on it. */

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

describe.each(walksUnder([['Dark', 'forced colours'], ['Steam']]))('every screen, %s', (_, hardship) => {
  it('is in order: nothing for axe, nothing sideways, every word whole and in its place', async () => {
    await walkScreens({ browser, url: server.url, hardship, at });
  });
});
