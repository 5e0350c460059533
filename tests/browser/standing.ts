import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { launchChromium } from './chromium.ts';
import { startTestServer, type TestServer } from './server.ts';

/** What stands while a file's tests run, from the first to the last: one browser and one server. Read them within a test. */
export let browser: Browser;
export let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});
