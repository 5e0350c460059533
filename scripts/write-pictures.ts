// Pictures of every screen at three widths into docs/pictures. Run with: npx tsx scripts/write-pictures.ts
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { launchChromium } from '../tests/browser/chromium.ts';
import { startTestServer } from '../tests/browser/server.ts';

const FOLDER = fileURLToPath(new URL('../docs/pictures/', import.meta.url));
const WIDTHS = [
  { name: 'phone', width: 390, height: 844, hasTouch: true },
  { name: 'tablet', width: 820, height: 1180, hasTouch: true },
  { name: 'desk', width: 1280, height: 900, hasTouch: false },
] as const;
/** Early afternoon, so that the example's running make began in the morning. */
const CLOCK = new Date('2026-03-04T13:00:00Z');

async function settled(page: Page): Promise<void> {
  await page.waitForTimeout(300);
  await page
    .getByText(/being worked out/i)
    .first()
    .waitFor({ state: 'hidden', timeout: 15_000 })
    .catch(() => undefined);
  await page.waitForTimeout(1200);
}

async function shoot(browser: Browser, url: string, size: (typeof WIDTHS)[number]): Promise<void> {
  const { width, height, hasTouch, name } = size;
  const context = await browser.newContext({
    viewport: { width, height },
    hasTouch,
    locale: 'en-GB',
    timezoneId: 'UTC',
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  await page.clock.install({ time: CLOCK });
  const keep = async (screen: string): Promise<void> => {
    await settled(page);
    await page.screenshot({ path: join(FOLDER, `${screen}-${name}.png`) });
  };
  await page.goto(`${url}/`);
  await keep('first-visit');
  await page.getByRole('button', { name: 'Open the Larkenshaw example' }).click();
  await page.getByText('Birch').first().waitFor();
  await keep('today');
  await page.getByRole('link', { name: 'Go to the vat' }).first().click();
  await page.getByRole('button', { name: 'Note a reading' }).waitFor();
  await keep('vat');
  const vat = page.url();
  for (const [action, screen] of [
    ['Note a reading', 'pad'],
    ['Test it', 'judge'],
    ['Something is wrong', 'wrong'],
    ['Whole make', 'whole-make'],
  ] as const) {
    await page.goto(vat);
    await page.getByRole('button', { name: action }).click();
    await keep(screen);
  }
  await page.goto(`${url}/`);
  await page.getByRole('link', { name: 'Open the record' }).first().click();
  await page.getByText('What happened').first().waitFor();
  await keep('record');
  await page.goto(`${url}/plan`);
  await page.getByText('Light the burner at').waitFor();
  await keep('plan');
  await page.getByRole('heading', { name: 'Amounts' }).scrollIntoViewIfNeeded();
  await keep('plan-amounts');
  await shootBench({ page, url, keep });
  await context.close();
}

/** The Bench: its list, one sum, the cup test with its answer, and the bottle on the list. */
async function shootBench(input: {
  readonly page: Page;
  readonly url: string;
  readonly keep: (screen: string) => Promise<void>;
}): Promise<void> {
  const { page, url, keep } = input;
  await page.goto(`${url}/bench`);
  await page.getByRole('heading', { name: 'Bench' }).waitFor();
  await keep('bench');
  await page.goto(`${url}/bench/brine-time`);
  await page.getByRole('region', { name: 'The answer' }).waitFor();
  await keep('bench-sum');
  await page.goto(`${url}/bench/rennet-test`);
  await page.getByRole('textbox', { name: 'Name of the bottle' }).fill('Brown bottle');
  await keep('cup');
  await page.getByRole('button', { name: 'Start' }).click();
  await page.clock.fastForward(11 * 60_000);
  await page.getByRole('button', { name: 'Flecks now' }).click();
  await page.getByText('Working strength of the bottle').waitFor();
  await keep('cup-result');
  await page.goto(`${url}/bench/lots`);
  await page.getByRole('heading', { name: 'Brown bottle' }).waitFor();
  await keep('lots');
}

/** The picture that the README opens with: the card beside the vat, and the plan on a desk. */
async function compose(browser: Browser): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 760 } });
  const source = (file: string): string =>
    `data:image/png;base64,${readFileSync(join(FOLDER, file)).toString('base64')}`;
  await page.setContent(
    `<body style="margin:0;background:#e3e9eb;display:flex;gap:28px;align-items:center;justify-content:center;height:760px">
     <img src="${source('vat-phone.png')}" height="700"><img src="${source('plan-desk.png')}" height="700"></body>`,
  );
  await page.screenshot({ path: join(FOLDER, 'vatside.png') });
  await page.close();
}

mkdirSync(FOLDER, { recursive: true });
const server = await startTestServer();
const browser = await launchChromium();
try {
  for (const size of WIDTHS) await shoot(browser, server.url, size);
  await compose(browser);
} finally {
  await browser.close();
  await server.close();
}
