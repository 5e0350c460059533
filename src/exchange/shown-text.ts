/** Somebody's words where they are shown beside others: nothing in them that no eye sees and that changes what stands after it. */

/** Signs that end a line in some readers and not in others: vertical tab, form feed, next line, line and paragraph separator. */
const LINE_ENDS = /[\v\f\u0085\u2028\u2029]/g;
/** Controls but tab and line ends; a text that is cut off at one of them, or an alarm bell, is no word. */
const CONTROLS = /(?![\t\n\r])\p{Cc}/gu;
/**
 * What turns the direction of all that follows until it is ended: embeddings, overrides and isolates (Unicode UAX 9, 2; from
 * memory). Letters that run from right to left, and the marks between them (U+200E, U+200F, U+061C), stay.
 */
const TURNS = /[\u202A-\u202E\u2066-\u2069]/g;

/** The text as it is to be drawn, printed or put into a table; what is kept in the log is never touched. */
export const shownText = (text: string): string =>
  text.replaceAll(LINE_ENDS, '\n').replaceAll(CONTROLS, '').replaceAll(TURNS, '');
