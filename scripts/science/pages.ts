/** All pages of `docs/science` as text by file name, formatted as the house formats. */
import { format, resolveConfig } from 'prettier';
import { isOfSchedule, judgedRows } from './judged.ts';
import { MODELS } from './models.ts';
import { indexPage, modelPage } from './page.ts';
import { plotSvg } from './plot.ts';
import { plotOf } from './plots.ts';

export const PAGES = new URL('../../docs/science/', import.meta.url);

export async function sciencePages(): Promise<ReadonlyMap<string, string>> {
  const { rows } = await judgedRows();
  const options = { ...(await resolveConfig(new URL('README.md', PAGES).pathname)), parser: 'markdown' };
  const pages = new Map<string, string>();
  for (const model of MODELS) {
    const own = rows.filter(({ row }) => model.rows.test(row.id));
    const plot = plotOf(model, own);
    if (plot !== null) pages.set(`${model.id}.svg`, plotSvg(plot));
    const page = await modelPage({ model, rows: own, hasPlot: plot !== null });
    pages.set(`${model.id}.md`, await format(page, options));
  }
  pages.set('README.md', await format(indexPage(rows.filter(({ row }) => !isOfSchedule(row.id))), options));
  return pages;
}
