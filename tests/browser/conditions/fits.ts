import type { Page } from 'playwright-core';

/** Buttons, links and words that do not fit where they stand; one line each, empty where all do. */
export const misfits = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const name = (one: Element): string => `${one.className || one.tagName.toLowerCase()} "${(one.textContent ?? '').replaceAll(/\s+/gu, ' ').trim().slice(0, 50)}"`; // prettier-ignore
    const found: string[] = [];
    const slack = 2;
    for (const one of document.querySelectorAll<HTMLElement>('button, a, h1, h2, h3, label, dt, dd, p')) {
      const box = one.getBoundingClientRect();
      if (box.width <= 1 || box.height <= 1 || one.closest('svg, .out-of-sight, .frame-skip, [hidden]') !== null) continue; // prettier-ignore
      const scrolls = one.closest('.numbers, table, .lanes, .pots-lanes, [data-scrolls]') !== null;
      if (!scrolls && (box.right > innerWidth + slack || box.left < -slack)) found.push(`${name(one)} stands outside the screen`); // prettier-ignore
      const style = getComputedStyle(one);
      const isCut = one.scrollWidth > one.clientWidth + slack && style.display !== 'inline' && style.textOverflow !== 'ellipsis'; // prettier-ignore
      if (isCut && one.clientWidth > 0 && !scrolls) found.push(`${name(one)} is wider than its place`);
    }
    // Where a pot's name or a step's is cut short, nobody knows which it is.
    for (const one of document.querySelectorAll<HTMLElement>('.vat-pot > span:not(.out-of-sight), .timeline-name'))
      if (one.scrollWidth > one.clientWidth + slack && one.clientWidth > 0) found.push(`${name(one)} is cut short`);
    // What does not scroll must be wholly in sight, and leave most of the screen to the rest.
    for (const bar of document.querySelectorAll('.vat-actions, .pots-actions, .whatif-acts')) {
      const { bottom, height } = bar.getBoundingClientRect();
      if (height > innerHeight * 0.4 + slack) found.push(`${bar.className} takes ${Math.round((100 * height) / innerHeight)} % of the height`); // prettier-ignore
      for (const one of bar.querySelectorAll('button'))
        if (one.getBoundingClientRect().bottom > Math.min(innerHeight, bottom) + slack) found.push(`${name(one)} hangs out of ${bar.className}`); // prettier-ignore
    }
    return found;
  });
