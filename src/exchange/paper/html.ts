/** A sheet as text: for one file that opens without a network and prints. */
import { drawnText, type PaperContent, type PaperSheet } from './element.ts';
import { shownText } from '../shown-text.ts';
import { PAPER_STYLE } from './style.ts';

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** One piece of a sheet as HTML; every word and attribute is escaped. */
export function htmlOf(content: PaperContent): string {
  if (typeof content === 'string') return escaped(drawnText(content));
  const attributes = Object.entries(content.attributes).map(
    ([name, value]) => ` ${name}="${escaped(shownText(value))}"`,
  );
  const inside = content.children.map(htmlOf).join('');
  return `<${content.tag}${attributes.join('')}>${inside}</${content.tag}>`;
}

/**
 * Sheets as one file: no script, nothing fetched, its style inside.
 * @param input.language of the words: `en-GB`
 * @returns an HTML document
 */
export function paperDocument(input: { readonly sheets: readonly PaperSheet[]; readonly language: string }): string {
  const { sheets, language } = input;
  const title = sheets[0]?.title ?? '';
  return [
    '<!doctype html>',
    `<html lang="${escaped(language)}">`,
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escaped(drawnText(title))}</title>`,
    `<style>${PAPER_STYLE}${ALONE}</style>`,
    '</head>',
    '<body>',
    ...sheets.map((sheet) => `<article class="${paperClass(sheet)}">${sheet.body.map(htmlOf).join('')}</article>`),
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

/** The class of a sheet's outermost element. */
export const paperClass = ({ isOnePage, isClose = false }: Pick<PaperSheet, 'isOnePage' | 'isClose'>): string =>
  `paper${isOnePage ? ' paper-one' : ''}${isClose ? ' paper-close' : ''}`;

/** What the app's own pages have from elsewhere. */
const ALONE = `
body{margin:0;background:#fff}
.paper,.paper *{box-sizing:border-box;margin:0;padding:0}
.paper h1,.paper h2,.paper h3,.paper p,.paper dd,.paper dt,.paper li{margin:0}
.paper ul,.paper ol{list-style:none}
@media screen{.paper{margin:0 auto}}
@page{margin:14mm 12mm 16mm 20mm}
`;
