import type { Browser, Page } from 'playwright-core';

/** Every print of the worked example, as it comes out of a printer without its margins. */

export const PRINT_PAPERS = ['A4', 'Letter'] as const;
export type PrintPaper = (typeof PRINT_PAPERS)[number];

/** Width between the margins of `print.css` (20 and 12 mm), and of the whole sheet, in CSS pixels of 1/96 inch. */
const WIDTH_PX = { A4: { between: 673, whole: 794 }, Letter: { between: 695, whole: 816 } } as const;
const HEIGHT_PX = 1000;

/** An address of its own, so that links and squares on paper are the same on every machine. */
const ORIGIN = 'http://larkenshaw.localhost';
const AT = Date.UTC(2026, 10, 25, 9, 0);
const EXAMPLE = 'demo-ash';

interface Print {
  readonly name: string;
  readonly sees: string;
  readonly path: string;
  /** Once this is there, the sheet is. */
  readonly shows: string;
  /** Labels lie where the sheet has them: to its edges. */
  readonly isWhole?: boolean;
}

export const PRINTS: readonly Print[] = [
  { name: 'make-sheet', sees: 'Make sheet: time line, amounts, blanks for what is read.', path: `/record/${EXAMPLE}?sheet=make`, shows: '.sheet-step' },
  { name: 'student', sees: "Pupil's sheet: one side, a row a step.", path: `/paper/${EXAMPLE}/student`, shows: '.paper' },
  { name: 'home', sees: 'Take-home sheet: weight, label, time out of the cold, who should not eat it, the make for the pot at home.', path: `/paper/${EXAMPLE}/home`, shows: '.paper' },
  { name: 'inspector', sees: 'Batch record for an inspector.', path: `/paper/${EXAMPLE}/inspector`, shows: '.paper' },
  { name: 'hand-out', sees: "Hand-out: the make for somebody else's stove.", path: `/paper/${EXAMPLE}/handOut`, shows: '.paper' },
  { name: 'labels', sees: 'Twelve labels.', path: `/record/${EXAMPLE}/labels`, shows: '.label-card', isWhole: true },
  { name: 'ready', sees: 'Get-ready list: to buy, the evening before, what to begin when.', path: '/paper/plan/ready', shows: '.paper' },
  { name: 'run', sees: "Instructor's run of the class.", path: '/paper/plan/run', shows: '.paper' },
]; // prettier-ignore

/** The example opened in a browser of its own, with the clock standing still and no server but for the page's own parts. */
export async function openPrints(browser: Browser, url: string): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    locale: 'en-GB',
    timezoneId: 'UTC',
    reducedMotion: 'reduce',
    serviceWorkers: 'block',
  });
  context.setDefaultTimeout(60_000);
  await context.route('**/*', async (route) => {
    const { pathname } = new URL(route.request().url());
    if (pathname.startsWith('/api/')) return route.abort();
    const part = await fetch(url + pathname);
    const contentType = part.headers.get('content-type') ?? '';
    return route.fulfill({ status: part.status, contentType, body: Buffer.from(await part.arrayBuffer()) });
  });
  const page = await context.newPage();
  await page.clock.setFixedTime(AT);
  await page.goto(ORIGIN);
  await page.getByRole('button', { name: 'Open the Larkenshaw example' }).click();
  await page.locator(`a[href^="/record/${EXAMPLE}"]`).first().waitFor();
  return page;
}

/** Goes to a print within the page, as a link would. */
export async function goToPrint(page: Page, { path, shows }: Print): Promise<void> {
  await page.evaluate((address) => history.pushState(null, '', address), path);
  await page.locator(shows).first().waitFor();
  await page.evaluate(async () => document.fonts.ready.then(() => null));
}

/** The print as a picture, as wide as the paper between its margins. */
export async function takePrint(page: Page, print: Print, paper: PrintPaper): Promise<Buffer> {
  const { between, whole } = WIDTH_PX[paper];
  if (print.isWhole === true) await page.getByLabel('Paper').selectOption(paper);
  await page.setViewportSize({ width: print.isWhole === true ? whole : between, height: HEIGHT_PX });
  await page.emulateMedia({ media: 'print' });
  const picture = await page.screenshot({ fullPage: true });
  await page.emulateMedia({ media: null });
  await page.setViewportSize({ width: 1280, height: 900 });
  return picture;
}

export const printFile = (name: string, paper: PrintPaper): string => `${name}-${paper.toLowerCase()}.webp`;
