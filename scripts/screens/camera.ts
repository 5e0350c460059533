import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { startTestServer } from '../../tests/browser/server.ts';
import { openAt } from '../../tests/browser/tasks/place.ts';
import { SIZES, type Sitting, type SizeName } from './sitting.ts';

const QUALITY = 80;

/** The name of a picture's file. */
export const fileOf = (state: string, size: SizeName): string => `${state}-${size}.webp`;

const LOOKS_MS = 300;
const CALM_LOOKS = 4;
const MOST_LOOKS = 100;

/** Waits until nothing has been worked out or opened for some looks, as far as that comes to an end. */
async function settled(page: Page): Promise<void> {
  let calm = 0;
  for (let look = 0; look < MOST_LOOKS && calm < CALM_LOOKS; look++) {
    await page.waitForTimeout(LOOKS_MS);
    const isBusy = await page.evaluate(() => /being worked out|^opening/im.test(document.body.innerText));
    calm = isBusy ? 0 : calm + 1;
  }
  await page.evaluate(async () => document.fonts.ready.then(() => null));
}

/** Takes the picture of what the page shows, through the browser's own protocol: it writes webp. */
async function picture(page: Page, path: string): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const { data } = await session.send('Page.captureScreenshot', { format: 'webp', quality: QUALITY });
  await session.detach();
  writeFileSync(path, Buffer.from(data, 'base64'));
}

/**
 * Sits through the states of one page and pictures each at every size.
 * @returns how many pictures were written
 */
export async function sitThrough(input: {
  readonly browser: Browser;
  readonly sitting: Sitting;
  readonly folder: string;
}): Promise<number> {
  const { browser, sitting, folder } = input;
  const [first = 'phone'] = sitting.sizes;
  const { sharedAs } = sitting;
  const server = await startTestServer(sharedAs === undefined ? undefined : { names: [sharedAs] });
  try {
    const begin = await sitting.arrange(server);
    const place = { name: first, size: SIZES[first], hasTouch: true, ...sitting.place };
    const { page, context } = await openAt({ browser, place, at: begin.at, keepsNothing: sitting.keepsNothing ?? false }); // prettier-ignore
    await sitting.before?.(context);
    await page.goto(server.url + begin.path);
    let count = 0;
    for (const state of sitting.states) {
      await state.reach?.(page, context);
      await settled(page);
      for (const size of sitting.sizes) {
        await page.setViewportSize(SIZES[size]);
        await page.waitForTimeout(200);
        await state.look?.(page);
        await page.waitForTimeout(150);
        await picture(page, join(folder, fileOf(state.name, size)));
        count += 1;
      }
      await page.setViewportSize(SIZES[first]);
    }
    await context.close();
    return count;
  } finally {
    await server.close();
  }
}
