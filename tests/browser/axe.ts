import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const SOURCE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/**
 * What axe-core finds wrong with the page as it stands.
 * @returns one line a violation with the first places, empty where there is none
 */
export async function violations(page: Page, more: readonly string[] = []): Promise<string[]> {
  // It stays on the page while that is walked about in.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(SOURCE);
  return page.evaluate(
    async ({ rules, extra }) => {
      const found = await (globalThis as unknown as { axe: Axe }).axe.run(document, {
        runOnly: { type: 'tag', values: rules },
        rules: Object.fromEntries(extra.map((rule) => [rule, { enabled: true }])),
      });
      return found.violations.map(
        (violation) =>
          `${violation.id}: ${violation.nodes
            .slice(0, 4)
            .map((node) => node.html.slice(0, 160))
            .join(' | ')}`,
      );
      interface Axe {
        run: (
          root: Document,
          options: object,
        ) => Promise<{ violations: readonly { id: string; nodes: readonly { html: string }[] }[] }>;
      }
    },
    { rules: RULES, extra: [...more] },
  );
}
