import { launchChromium, SIZES, visit } from './tests/browser/chromium.ts';
import { startTestServer } from './tests/browser/server.ts';
const server = await startTestServer(); const browser = await launchChromium();
const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
try {
await page.clock.install({ time: new Date('2026-11-25T09:00:00Z') });
await page.goto(`${server.url}/plan`);
await page.getByText('Light the burner at').waitFor();
await page.getByText('The one answer that would narrow').waitFor();
const row = page.getByLabel('Room', {exact:true});
await row.scrollIntoViewIfNeeded();
const order = () => page.locator('.assumed-row .field-label').allInnerTexts();
const before = await order();
await row.fill('banana'); await page.waitForTimeout(400);
await page.screenshot({path:'/tmp/shots/error.png'});
await row.fill('15'); await page.waitForTimeout(800);
console.log(JSON.stringify(before)===JSON.stringify(await order()));
await page.screenshot({path:'/tmp/shots/room15.png'});
for (const s of ['rennet','clot','brine-time','listeria','vat-fit','measure','cool']) { await page.goto(`${server.url}/bench/${s}`); await page.waitForTimeout(1500); await page.screenshot({path:`/tmp/shots/sum-${s}.png`, fullPage:true}); }
console.log(complaints);
} catch (e) { console.error(e); }
await browser.close(); await server.close();
