import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { printFile, type PrintPaper } from './prints.ts';

export const PRINTS_FOLDER = fileURLToPath(new URL('../../../docs/prints/', import.meta.url));
export const keptPrint = (name: string, paper: PrintPaper): string => PRINTS_FOLDER + printFile(name, paper);

/** How two pictures of one print differ, and what of it is neither ink nor paper. */
export interface PrintSeen {
  /** Width by height in points. */
  readonly sizes: { readonly now: string; readonly kept: string };
  /** Share of fields of eight by eight points whose mean grey differs by more than a fifth of black. */
  readonly otherwise: number;
  /** Points that are not between black and white. */
  readonly coloured: number;
  /** Share of points in even grey, which no rim of a letter is. */
  readonly grey: number;
}

/** Compares in a bare page, which can read pictures of any kind. */
export async function lookAtPrint(bare: Page, pictures: { readonly now: Buffer; readonly kept: Buffer }): Promise<PrintSeen> {
  return bare.evaluate(async ({ now, kept }) => {
    const FIELD = 8;
    const open = async (data: string, type: string) => {
      const picture = await createImageBitmap(await (await fetch(`data:image/${type};base64,${data}`)).blob());
      const canvas = new OffscreenCanvas(picture.width, picture.height);
      const pen = canvas.getContext('2d');
      pen?.drawImage(picture, 0, 0);
      const points = pen?.getImageData(0, 0, picture.width, picture.height).data ?? new Uint8ClampedArray();
      const grey = new Uint8Array(points.length / 4);
      let coloured = 0;
      for (let at = 0; at < grey.length; at++) {
        const red = points[4 * at] ?? 0;
        const blue = points[4 * at + 2] ?? 0;
        grey[at] = (red + (points[4 * at + 1] ?? 0) + blue) / 3;
        if (Math.abs(red - blue) > 24) coloured += 1;
      }
      return { width: picture.width, height: picture.height, grey, coloured };
    };
    const [one, other] = await Promise.all([open(now, 'png'), open(kept, 'webp')]);
    const { width, height, grey } = one;
    let evenGrey = 0;
    for (let at = width + 1; at < grey.length; at++) {
      const here = grey[at] ?? 0;
      if (here > 40 && here < 235 && here === grey[at - 1] && here === grey[at - width] && here === grey[at - width - 1]) evenGrey += 1;
    }
    let fields = 0;
    let differing = 0;
    for (let top = 0; top + FIELD <= height; top += FIELD)
      for (let left = 0; left + FIELD <= width; left += FIELD) {
        let sum = 0;
        for (let y = top; y < top + FIELD; y++)
          for (let at = y * width + left; at < y * width + left + FIELD; at++) sum += (grey[at] ?? 0) - (other.grey[at] ?? 0);
        fields += 1;
        if (Math.abs(sum) / FIELD ** 2 > 51) differing += 1;
      }
    const size = ({ width, height }: { readonly width: number; readonly height: number }): string => `${width} by ${height}`;
    return { sizes: { now: size(one), kept: size(other) }, otherwise: differing / fields, coloured: one.coloured, grey: evenGrey / grey.length };
  }, { now: pictures.now.toString('base64'), kept: pictures.kept.toString('base64') });
} // prettier-ignore
