// Pictures of every print into docs/prints, with an index; the tests compare with them. Look at them before you keep them. Run with: npx tsx scripts/write-prints.ts
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { launchChromium } from '../tests/browser/chromium.ts';
import { PRINTS_FOLDER } from '../tests/browser/prints/look.ts';
import { goToPrint, openPrints, printFile, PRINT_PAPERS, PRINTS, takePrint } from '../tests/browser/prints/prints.ts';
import { startTestServer } from '../tests/browser/server.ts';

const QUALITY = 0.9;

mkdirSync(PRINTS_FOLDER, { recursive: true });
const server = await startTestServer();
const browser = await launchChromium();
try {
  const page = await openPrints(browser, server.url);
  const bare = await browser.newPage();
  for (const print of PRINTS) {
    await goToPrint(page, print);
    for (const paper of PRINT_PAPERS) {
      const png = (await takePrint(page, print, paper)).toString('base64');
      const webp = await bare.evaluate(
        async ({ data, quality }) => {
          const picture = await createImageBitmap(await (await fetch(`data:image/png;base64,${data}`)).blob());
          const canvas = new OffscreenCanvas(picture.width, picture.height);
          canvas.getContext('2d')?.drawImage(picture, 0, 0);
          const bytes = await (await canvas.convertToBlob({ type: 'image/webp', quality })).arrayBuffer();
          return [...new Uint8Array(bytes)];
        },
        { data: png, quality: QUALITY },
      );
      writeFileSync(join(PRINTS_FOLDER, printFile(print.name, paper)), Uint8Array.from(webp));
    }
    console.log(print.name);
  }
} finally {
  await browser.close();
  await server.close();
}
const lines = PRINTS.map(({ name, sees }) => `- ${sees} ${PRINT_PAPERS.map((paper) => `[${paper === 'A4' ? 'A4' : 'US Letter'}](${printFile(name, paper)})`).join(' · ')}`); // prettier-ignore
writeFileSync(join(PRINTS_FOLDER, 'README.md'), `# Prints\n\nEvery print of the worked example as a picture, as wide as the paper between its margins and as long as all its pages. \`tests/browser/prints.test.ts\` compares each print with these; \`npx tsx scripts/write-prints.ts\` writes them anew, to be looked at first.\n\n${lines.join('\n')}\n`); // prettier-ignore
