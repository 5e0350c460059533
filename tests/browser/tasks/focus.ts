import type { Page } from 'playwright-core';

interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** One stop of the Tab key: what it is, where, and how its ring stands out. */
export interface Stop {
  readonly name: string;
  readonly box: Box;
  /** Where the stop before it lies now: the page scrolls to what is reached. Null for the first, and for one that has gone. */
  readonly before: Box | null;
  /** Wholly in sight, and not under anything. */
  readonly isUncovered: boolean;
  /** Sides of four on which the ring has at least three to one against what was there without it. */
  readonly sides: number;
}

const RATIO = 3;
/** The ring lies about the edge: outside it, or inside where there is no room. */
const FROM_EDGE_PX = [-7, -6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6];
const MARGIN = 8;

/** Goes through everything that Tab reaches, from the top of the page to its end. */
export async function tabThrough(page: Page, most = 60): Promise<Stop[]> {
  const stops: Stop[] = [];
  await page.evaluate(() => {
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    getSelection()?.collapse(document.body, 0);
  });
  for (let guard = 0; guard < most; guard++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate((count) => {
      const here = document.activeElement;
      if (!(here instanceof HTMLElement) || here === document.body || here.dataset['stop'] !== undefined) return null;
      here.dataset['stop'] = String(count);
      const { left, top, right, bottom } = here.getBoundingClientRect();
      const before = document
        .querySelector(`[data-stop="${count - 1}"]`)
        ?.getBoundingClientRect()
        .toJSON() as Box | undefined;
      const [midX, midY] = [(left + right) / 2, (top + bottom) / 2];
      const hit = (x: number, y: number): boolean => {
        const found = document.elementFromPoint(x, y);
        return found !== null && (here.contains(found) || found.contains(here) || here.closest('label')?.contains(found) === true); // prettier-ignore
      };
      const inset = 3;
      const isUncovered = left >= -1 && top >= -1 && right <= innerWidth + 1 && bottom <= innerHeight + 1
        && [[midX, midY], [midX, top + inset], [midX, bottom - inset]].every(([x = 0, y = 0]) => hit(x, y)); // prettier-ignore
      return { name: (here.getAttribute('aria-label') ?? here.innerText).replaceAll(/\s+/gu, ' ').trim().slice(0, 60), box: { left, top, right, bottom }, before: before ?? null, isUncovered }; // prettier-ignore
    }, guard);
    if (at === null) break;
    stops.push({ ...at, sides: await sidesSeen(page, at.box) });
  }
  await page.evaluate(() => document.querySelectorAll<HTMLElement>('[data-stop]').forEach((one) => delete one.dataset['stop'])); // prettier-ignore
  return stops;
}

/** Pictures with and without the ring, compared where it is drawn. */
async function sidesSeen(page: Page, box: Box): Promise<number> {
  const view = page.viewportSize() ?? { width: 0, height: 0 };
  const x = Math.max(0, Math.floor(box.left) - MARGIN);
  const y = Math.max(0, Math.floor(box.top) - MARGIN);
  const clip = { x, y, width: Math.min(view.width, Math.ceil(box.right) + MARGIN) - x, height: Math.min(view.height, Math.ceil(box.bottom) + MARGIN) - y }; // prettier-ignore
  if (clip.width <= 0 || clip.height <= 0) return 0;
  const picture = async (): Promise<string> => (await page.screenshot({ clip, animations: 'disabled' })).toString('base64'); // prettier-ignore
  const ringed = await picture();
  await page.evaluate(() => {
    const here = document.activeElement;
    Object.assign(globalThis, { here });
    if (here instanceof HTMLElement) here.blur();
  });
  const plain = await picture();
  await page.evaluate(() => (globalThis as unknown as { here: HTMLElement }).here.focus({ preventScroll: true }));
  const [midX, midY] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const points = [
    FROM_EDGE_PX.map((px) => ({ x: midX, y: box.top - px })),
    FROM_EDGE_PX.map((px) => ({ x: midX, y: box.bottom + px })),
    FROM_EDGE_PX.map((px) => ({ x: box.left - px, y: midY })),
    FROM_EDGE_PX.map((px) => ({ x: box.right + px, y: midY })),
  ].map((side) => side.map(({ x, y }) => ({ x: Math.floor(x - clip.x), y: Math.floor(y - clip.y) })));
  const ratios = await page.evaluate(
    async ({ pictures, spots }) => {
      const drawn = await Promise.all(
        pictures.map(async (data) => {
          const bytes = Uint8Array.from(atob(data), (letter) => letter.charCodeAt(0));
          const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
          const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
          const context = canvas.getContext('2d');
          context?.drawImage(bitmap, 0, 0);
          return { context, width: bitmap.width, height: bitmap.height };
        }),
      );
      const linear = (byte: number): number => (byte / 255 <= 0.04045 ? byte / 255 / 12.92 : ((byte / 255 + 0.055) / 1.055) ** 2.4); // prettier-ignore
      const light = ({ context, width, height }: (typeof drawn)[number], at: { x: number; y: number }): number => {
        if (context === null || at.x < 0 || at.y < 0 || at.x >= width || at.y >= height) return Number.NaN;
        const [r = 0, g = 0, b = 0] = context.getImageData(at.x, at.y, 1, 1).data;
        return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
      };
      const ratio = (at: { x: number; y: number }): number => {
        const [a = Number.NaN, b = Number.NaN] = drawn.map((one) => light(one, at));
        return Number.isNaN(a + b) ? 1 : (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
      };
      // A line of the ring, not one stray pixel: the second best of the side.
      return spots.map((side) => side.map(ratio).sort((a, b) => b - a)[1] ?? 1);
    },
    { pictures: [ringed, plain], spots: points },
  );
  return ratios.filter((ratio) => ratio >= RATIO).length;
}

/** Stops that come before what stands ahead of them: higher up in the same column, or further left in the same row. */
export function outOfOrder(stops: readonly Stop[]): string[] {
  const slack = 2;
  return stops.slice(1).flatMap(({ name, box, before }, index) => {
    const last = stops[index];
    if (last === undefined) return [];
    const was = before ?? last.box;
    const isBelow = box.top >= was.top + slack && box.bottom > was.top;
    const isRight = box.left >= was.right - slack;
    return isBelow || isRight ? [] : [`${name} comes after ${last.name}`];
  });
}
