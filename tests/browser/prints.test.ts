import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { keptPrint, lookAtPrint } from './prints/look.ts';
import { goToPrint, openPrints, PRINT_PAPERS, PRINTS, takePrint } from './prints/prints.ts';
import { browser, server } from './standing.ts';

/** Share of the fields of a picture that may look otherwise: another build of the browser sets letters a hair apart. */
const MOST_OTHERWISE = 0.01;
/** Share of a print that may be neither ink nor paper: the rims of letters. */
const MOST_GREY = 0.002;

describe('prints as pictures', () => {
  it('look as those that were looked at and kept, on A4 and on Letter, in ink alone', async () => {
    const page = await openPrints(browser, server.url);
    const bare = await browser.newPage();
    const wrong: string[] = [];
    for (const print of PRINTS) {
      await goToPrint(page, print);
      for (const paper of PRINT_PAPERS) {
        const kept = keptPrint(print.name, paper);
        const name = `${print.name} on ${paper}`;
        if (!existsSync(kept)) {
          wrong.push(`${name}: no picture is kept; look at it and keep it with npx tsx scripts/write-prints.ts`);
          continue;
        }
        const seen = await lookAtPrint(bare, { now: await takePrint(page, print, paper), kept: readFileSync(kept) });
        if (seen.sizes.now !== seen.sizes.kept) wrong.push(`${name}: ${seen.sizes.now}, kept ${seen.sizes.kept}`);
        else if (seen.otherwise > MOST_OTHERWISE)
          wrong.push(`${name}: ${(100 * seen.otherwise).toFixed(1)} % looks otherwise`);
        if (seen.coloured > 0) wrong.push(`${name}: ${seen.coloured} coloured points`);
        if (seen.grey > MOST_GREY)
          wrong.push(`${name}: ${(100 * seen.grey).toFixed(2)} % is grey, which a copier loses`);
      }
    }
    expect(wrong).toEqual([]);
    await bare.close();
    await page.context().close();
  });
});
