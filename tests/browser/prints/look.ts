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
      const at = (x: number, y: number, part: number): number => points[4 * (y * picture.width + x) + part] ?? 0;
      return { width: picture.width, height: picture.height, at, grey: (x: number, y: number) => (at(x, y, 0) + at(x, y, 1) + at(x, y, 2)) / 3 };
    };
    const [one, other] = await Promise.all([open(now, 'png'), open(kept, 'webp')]);
    let fields = 0;
    let differing = 0;
    let coloured = 0;
    let evenGrey = 0;
    for (let top = 0; top + FIELD <= one.height; top += FIELD)
      for (let left = 0; left + FIELD <= one.width; left += FIELD) {
        let sum = 0;
        for (let y = top; y < top + FIELD; y++)
          for (let x = left; x < left + FIELD; x++) {
            const grey = one.grey(x, y);
            sum += grey - other.grey(x, y);
            if (Math.abs(one.at(x, y, 0) - one.at(x, y, 2)) > 24) coloured += 1;
            if (grey > 40 && grey < 235 && x > 0 && y > 0 && [one.grey(x - 1, y), one.grey(x, y - 1), one.grey(x - 1, y - 1)].every((near) => near === grey)) evenGrey += 1;
          }
        fields += 1;
        if (Math.abs(sum) / FIELD ** 2 > 51) differing += 1;
      }
    const size = ({ width, height }: { readonly width: number; readonly height: number }): string => `${width} by ${height}`;
    return { sizes: { now: size(one), kept: size(other) }, otherwise: differing / fields, coloured, grey: evenGrey / (one.width * one.height) };
  }, { now: pictures.now.toString('base64'), kept: pictures.kept.toString('base64') });
} // prettier-ignore
