import { useEffect } from 'react';
import { PAPERS, type PaperId } from './label-stock.ts';

/**
 * While the labels are in sight, pages print without margins, on the paper they were laid out for: the labels lie where
 * the sheet has them. Everything else that prints keeps the margins of `print.css`.
 */
export function useFullPages(paper: PaperId): void {
  useEffect(() => {
    const { widthMm, heightMm } = PAPERS[paper];
    const pages = new CSSStyleSheet();
    pages.insertRule(`@page { size: ${widthMm}mm ${heightMm}mm; margin: 0; @bottom-right { content: none; } }`);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, pages];
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== pages);
    };
  }, [paper]);
}
