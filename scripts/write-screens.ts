// Pictures of every screen and state into docs/screens, with an index. Run with: npx tsx scripts/write-screens.ts [part of a state's name]...
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { launchChromium } from '../tests/browser/chromium.ts';
import { AROUND } from './screens/around.ts';
import { fileOf, sitThrough } from './screens/camera.ts';
import { CLASS } from './screens/class.ts';
import { DAIRY } from './screens/dairy.ts';
import { EXAMPLE } from './screens/example.ts';
import { indexPage } from './screens/index-page.ts';
import { MOMENTS } from './screens/moments.ts';
import { NETWORK } from './screens/network.ts';
import { PLANNING } from './screens/planning.ts';
import { SHARED_AS } from './screens/sitting.ts';
import { STEPS } from './screens/steps.ts';

const FOLDER = fileURLToPath(new URL('../docs/screens/', import.meta.url));
/** What the README opens with. */
const OPENING = [fileOf('vat-rest-drained', 'phone'), fileOf('plan', 'desk')];
const GROUPS = [EXAMPLE, PLANNING, DAIRY, STEPS, AROUND, MOMENTS, CLASS, NETWORK];

/** The picture that the README opens with: the card beside the vat, and the plan on a desk. */
async function compose(browser: Browser): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 760 } });
  const source = (file: string): string =>
    `data:image/webp;base64,${readFileSync(join(FOLDER, file)).toString('base64')}`;
  await page.setContent(
    `<body style="margin:0;background:#e3e9eb;display:flex;gap:28px;align-items:center;justify-content:center;height:760px">
     <img src="${source(OPENING[0] ?? '')}" height="700"><img src="${source(OPENING[1] ?? '')}" height="700"></body>`,
  );
  await page.screenshot({ path: join(FOLDER, 'vatside.png') });
  await page.close();
}

// The clock field of a form follows the browser's own language.
process.env['LANGUAGE'] = 'en_GB';
const wanted = process.argv.slice(2);
mkdirSync(FOLDER, { recursive: true });
writeFileSync(join(FOLDER, 'README.md'), indexPage(GROUPS));
const browser = await launchChromium([`--host-resolver-rules=MAP ${SHARED_AS} 127.0.0.1`]);
let failures = 0;
try {
  for (const sitting of GROUPS.flatMap(({ sittings }) => sittings)) {
    const names = sitting.states.map(({ name }) => name);
    if (wanted.length > 0 && !names.some((name) => wanted.some((part) => name.includes(part)))) continue;
    try {
      const count = await sitThrough({ browser, sitting, folder: FOLDER });
      console.log(`${names.join(', ')}: ${count}`);
    } catch (error) {
      failures += 1;
      console.error(`${names.join(', ')}: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  if (OPENING.every((file) => existsSync(join(FOLDER, file)))) await compose(browser);
} finally {
  await browser.close();
}
if (failures > 0) process.exitCode = 1;
