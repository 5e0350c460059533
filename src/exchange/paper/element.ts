/** What a sheet of paper is made of: a small tree that screen, printer and file all draw from, so that they never disagree. */
import { shownText } from '../shown-text.ts';

export type Tag =
  | 'article' | 'header' | 'section' | 'footer' | 'div' | 'h1' | 'h2' | 'h3' | 'p' | 'strong' | 'span' | 's' | 'time'
  | 'ul' | 'ol' | 'li' | 'dl' | 'dt' | 'dd' | 'table' | 'caption' | 'thead' | 'tbody' | 'tr' | 'th' | 'td' | 'svg' | 'path'; // prettier-ignore

/** One element; attributes are plain text, escaped where they are written out. */
export interface PaperElement {
  readonly tag: Tag;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly PaperContent[];
}
export type PaperContent = PaperElement | string;

/** Something that may be left out of a sheet. */
export type Optional = PaperContent | null | readonly (PaperContent | null)[];

/** An element of this kind and class; what is null is left out. */
export function el(tag: Tag, kind: string | Readonly<Record<string, string>> = {}, ...children: Optional[]): PaperElement {
  const attributes = typeof kind === 'string' ? (kind === '' ? {} : { class: kind }) : kind;
  return { tag, attributes, children: children.flat().filter((child): child is PaperContent => child !== null && child !== '') };
} // prettier-ignore

/** A sheet: what stands at the head of every page, how large its words are, and all that is on it. */
export interface PaperSheet {
  /** Stable: names the file and the place in the address. */
  readonly id: string;
  readonly title: string;
  /** One line for the head of each page: make, pot, lot. */
  readonly head: string;
  /** Drawn on one side of one page, its rows sharing the room. */
  readonly isOnePage: boolean;
  /** Set closer and smaller, where much must go on few pages. */
  readonly isClose?: boolean;
  readonly body: readonly PaperContent[];
}

const UNITS = '°C|°F|%|mL|L|g|kg|mm|cm|in|oz|fl oz|lb|gal|qt|tsp|tbsp|cdta|oz líq\\.|min|h|IMCU/mL|IMCU';
const FIGURE = new RegExp(`(?<=\\d) (?=(?:${UNITS})(?![\\p{L}\\d]))`, 'gu');

/** Words as they are drawn: a number and its unit stay on one line, and no sign in them turns round or ends what follows. */
export const drawnText = (text: string): string => shownText(text).replaceAll(FIGURE, '\u00A0');

/** All words of a tree, for a search or a check. */
export const wordsOf = (content: PaperContent): string =>
  typeof content === 'string' ? content : content.children.map(wordsOf).join(' ');
