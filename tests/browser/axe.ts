import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const SOURCE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
/** How much of a rule's places, and of each, is told. */
const MOST_PLACES = 4;
const MOST_LETTERS = 160;

/**
 * What axe-core finds wrong with the page as it stands. A target that half lies under a bar where the page happens to be
 * scrolled to is judged anew in the middle of the screen, where a hand would bring it.
 * @returns one line a violation with the first places, empty where there is none
 */
export async function violations(page: Page, more: readonly string[] = []): Promise<string[]> {
  // It stays on the page while that is walked about in.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(SOURCE);
  return page.evaluate(
    async ({ rules, extra, mostPlaces, mostLetters }) => {
      const { axe } = globalThis as unknown as { axe: Axe };
      const found = await axe.run(document, {
        runOnly: { type: 'tag', values: rules },
        rules: Object.fromEntries(extra.map((rule) => [rule, { enabled: true }])),
      });
      const lines: string[] = [];
      for (const { id, nodes } of found.violations) {
        const left: Node[] = [];
        for (const node of nodes) if (id !== 'target-size' || (await isTooSmallInSight(node))) left.push(node);
        if (left.length > 0) lines.push(`${id}: ${left.slice(0, mostPlaces).map(({ html }) => html.slice(0, mostLetters)).join(' | ')}`); // prettier-ignore
      }
      return lines;

      async function isTooSmallInSight({ target: [selector] }: Node): Promise<boolean> {
        const target = selector === undefined ? null : document.querySelector(selector);
        if (target === null) return true;
        const [left, top] = [scrollX, scrollY];
        target.scrollIntoView({ block: 'center', behavior: 'instant' });
        const again = await axe.run(target, { runOnly: { type: 'rule', values: ['target-size'] } });
        scrollTo({ left, top, behavior: 'instant' });
        return again.violations.length > 0;
      }
      interface Node {
        readonly html: string;
        readonly target: readonly string[];
      }
      interface Axe {
        run: (
          root: Document | Element,
          options: object,
        ) => Promise<{ violations: readonly { id: string; nodes: readonly Node[] }[] }>;
      }
    },
    { rules: RULES, extra: [...more], mostPlaces: MOST_PLACES, mostLetters: MOST_LETTERS },
  );
}
