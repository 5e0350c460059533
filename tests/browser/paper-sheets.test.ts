import { readFileSync } from 'node:fs';
import jsQR from 'jsqr';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { readMakeFile } from '../../src/exchange/share/make-file.ts';
import { violations } from './axe.ts';
import { SIZES, visit } from './chromium.ts';
import { button } from './maker.ts';
import { expectLegible, letters, papers } from './paper.ts';
import { readPdf } from './pdf.ts';
import { browser, server } from './standing.ts';

const WILD =
  /NaN|undefined|Infinity|\b(?:paper|share|writeup|plan-text|vat|record|labels):[a-z]|\{\{|returned an object/;

async function openExample(page: Page): Promise<string> {
  await page.goto(server.url);
  await button(page, 'Open the Larkenshaw example').click();
  const record = await page.locator('a[href*="/record/"]').first().getAttribute('href');
  return (record ?? '').replace('/record/', '');
}

/** Each sheet with its most pages and what must stand on it, as letters without spaces. */
const SHEETS = [
  { of: 'record', sheet: 'student', pages: 1, must: ['Whopours', 'Seen0', 'ItBreaksclean'.slice(0, 2), 'Nexttime'] },
  { of: 'record', sheet: 'home', pages: 1, must: ['Outofthecold', 'Whoshouldnoteatit', 'LK-1112-ASH', 'Under2hours'] },
  { of: 'record', sheet: 'inspector', pages: 7, must: ['BatchrecordlotLK-1112-ASH'.replace('record', 'record,'), 'Supplierandaddress', 'takenback', 'Signature'] },
  { of: 'record', sheet: 'handOut', pages: 4, must: ['Stepbystep', 'Whatgoeswrong', 'Wherethiscomesfrom'] },
  { of: 'plan', sheet: 'ready', pages: 2, must: ['Tobuy', 'Theeveningbefore', 'Leaveontheshelf'] },
  { of: 'plan', sheet: 'run', pages: 4, must: ['Saythisfirst', 'Theclock', 'Theboard'] },
] as const; // prettier-ignore

describe('paper', () => {
  it('prints every sheet on A4 and on Letter: few pages, nothing outside them, black enough for a photocopier', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.desk });
    const id = await openExample(page);
    for (const { of, sheet, pages: most, must } of SHEETS) {
      await page.goto(`${server.url}/paper/${of === 'record' ? id : of}/${sheet}`);
      await page.locator('.paper-desk .paper').first().waitFor({ timeout: 60_000 });
      for (const format of papers) {
        const { pages, words } = readPdf(await page.pdf({ format }));
        expect(pages.length, `${sheet} ${format}`).toBeLessThanOrEqual(most);
        expectLegible(words, format);
        const all = letters(words.map(({ text }) => text).join(''));
        for (const one of must) expect(all, `${sheet} ${format}`).toContain(one);
        expect(words.map(({ text }) => text).join(' '), sheet).not.toMatch(WILD);
        // Small letters as high as a label's are, everywhere: 1.2 mm.
        for (const { xHeightMm, text } of words) if (xHeightMm !== null) expect(xHeightMm, `${sheet}: ${text}`).toBeGreaterThanOrEqual(1.2); // prettier-ignore
      }
      await page.emulateMedia({ media: 'print' });
      const clipped = await page.evaluate(() => [...document.querySelectorAll('.paper-one, .paper-table td, .paper-table th')].filter((one) => one.scrollWidth > one.clientWidth + 1 || (one.matches('.paper-one') && one.scrollHeight > one.clientHeight + 1)).map(({ textContent }) => textContent)); // prettier-ignore
      expect(clipped, sheet).toEqual([]);
      await page.emulateMedia({ media: null });
      if (sheet === 'home' || sheet === 'run') expect(await violations(page), sheet).toEqual([]);
    }
    expect(complaints).toEqual([]);
    await context.close();
  }, 180_000);

  it('gives a pupil a square that a camera reads, and its address opens Plan with their pot and their units', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.desk });
    const id = await openExample(page);
    await page.goto(`${server.url}/paper/${id}/home`);
    await page.getByLabel('Name').fill('Table 1');
    await page.getByLabel('Weight').fill('130');
    await page.getByLabel('Units at home').selectOption('us');
    await page.getByLabel('Milk for the pot at home').fill('4');
    await page.getByText('130 g').waitFor();
    const address = await page.locator('.paper-address').innerText();
    await page.locator('.paper-code').evaluate((code) => { (code as unknown as { style: { width: string; height: string } }).style.width = '400px'; (code as unknown as { style: { width: string; height: string } }).style.height = '400px'; }); // prettier-ignore
    const shot = (await page.locator('.paper-code').screenshot()).toString('base64');
    // A bare page turns the picture into points; another program's reader reads them.
    const bare = await context.newPage();
    const { data, width, height } = await bare.evaluate(async (png) => {
      const picture = await createImageBitmap(await (await fetch(`data:image/png;base64,${png}`)).blob()).catch(() => null);
      const canvas = document.createElement('canvas');
      canvas.width = picture?.width ?? 0;
      canvas.height = picture?.height ?? 0;
      const pen = canvas.getContext('2d');
      if (picture !== null) pen?.drawImage(picture, 0, 0);
      return { data: [...(pen?.getImageData(0, 0, canvas.width, canvas.height).data ?? [])], width: canvas.width, height: canvas.height };
    }, shot); // prettier-ignore
    expect(jsQR(Uint8ClampedArray.from(data), width, height)?.data).toBe(address);

    const home = await visit({ browser, size: SIZES.phone });
    await home.page.goto(address);
    await home.page.getByText('a link: Stretched ball').waitFor();
    expect(await home.page.getByRole('textbox', { name: 'Milk', exact: true }).inputValue()).toBe('1');
    expect(home.page.url()).toBe(`${server.url}/plan`);
    expect([...complaints, ...home.complaints]).toEqual([]);
    await home.context.close();
    await context.close();
  }, 120_000);

  it('hands a make on as a file that comes back whole, and takes in nothing of a broken one', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await page.goto(`${server.url}/share/stretched-ball`);
    const [download] = await Promise.all([page.waitForEvent('download'), button(page, 'Save: Make file').click()]);
    const text = readFileSync(await download.path(), 'utf8');
    expect(readMakeFile(text).id).toBe('stretched-ball');
    await page.goto(`${server.url}/share`);
    await page.getByLabel('Choose a file').setInputFiles({ name: 'broken.json', mimeType: 'application/json', buffer: Buffer.from(text.replace('"verb": "warm"', '"verb": "waltz"')) }); // prettier-ignore
    await page.getByText('does not fit; nothing was taken in').waitFor();
    await page.getByText('steps[0].verb').waitFor();
    const mine = text.replace('"id": "stretched-ball"', '"id": "our-ball"').replace('"name": "Stretched ball"', '"name": "Our ball"'); // prettier-ignore
    await page.getByLabel('Choose a file').setInputFiles({ name: 'ours.json', mimeType: 'application/json', buffer: Buffer.from(mine) }); // prettier-ignore
    await button(page, 'Keep it among my makes').click();
    await page.getByText('Kept among your makes.').waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('link', { name: 'Our ball' }).click();
    await page.getByRole('heading', { name: 'Our ball' }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  }, 120_000);

  it('writes a make up from the record, says what rests on this kitchen, and keeps it as a draft', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.desk });
    const id = await openExample(page);
    await page.goto(`${server.url}/record/${id}`);
    await page.getByRole('link', { name: 'Write up as I made it' }).click();
    await page.getByText('What rests on your kitchen').waitFor();
    await page.getByText('Your packet treats').waitFor();
    expect(await page.locator('.write-up').innerText()).not.toMatch(WILD);
    await page.getByLabel('What it is called').fill('Class ball');
    await page.getByLabel('Written by').fill('Larkenshaw');
    await page.getByLabel('Height above the sea, m').fill('120');
    expect(await violations(page)).toEqual([]);
    await button(page, 'Keep as a draft').click();
    await page.getByText('Kept among your makes, as a draft.').waitFor();
    await page.getByRole('link', { name: 'Class ball' }).click();
    await page.getByRole('heading', { name: 'Class ball' }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  }, 120_000);
});
