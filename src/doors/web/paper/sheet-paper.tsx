import { createElement, Fragment, useLayoutEffect, type ReactNode } from 'react';
import { drawnText, type PaperContent, type PaperSheet } from '../../../exchange/paper/element.ts';
import { paperClass } from '../../../exchange/paper/html.ts';
import { PAPER_STYLE } from '../../../exchange/paper/style.ts';
import '../print/print.css';

/** Sheets as they print, ink on white in every light; the head of each printed page says what they belong to. */
export function SheetPaper({ sheets }: { readonly sheets: readonly PaperSheet[] }): ReactNode {
  usePaperStyle(sheets[0]?.head ?? '');
  return sheets.map((sheet, index) => (
    // Sheets have no identity beside their place in the pile.
    <article key={index} className={paperClass(sheet)}>
      {sheet.body.map(drawn)}
    </article>
  ));
}

function drawn(content: PaperContent, key: number): ReactNode {
  if (typeof content === 'string') return <Fragment key={key}>{drawnText(content)}</Fragment>;
  const { class: className, ...attributes } = content.attributes;
  const children = content.children.length === 0 ? undefined : content.children.map(drawn);
  return createElement(
    content.tag,
    { key, ...attributes, ...(className === undefined ? {} : { className }) },
    children,
  );
}

/** The sheet's own style, and its words at the head of every page; both go when the sheet does. */
function usePaperStyle(head: string): void {
  useLayoutEffect(() => {
    const style = new CSSStyleSheet();
    style.replaceSync(PAPER_STYLE);
    style.insertRule(`@page { @top-left { content: ${quoted(head)}; font: 9pt sans-serif; } }`, style.cssRules.length);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, style];
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== style);
    };
  }, [head]);
}

/** A string of CSS: quotes, backslashes and line ends are escaped. */
const quoted = (text: string): string =>
  `"${text.replaceAll(/["\\]/g, (sign) => `\\${sign}`).replaceAll(/[\r\n\f]/g, ' ')}"`;
