/** The pieces that sheets are put together from. What nobody knows is a ruled blank, never a zero. */
import { el, type Optional, type PaperContent, type PaperElement } from './element.ts';

/** A ruled blank to write on; `wide` takes what room is left. */
export const blank = (size: 'short' | 'wide' = 'wide'): PaperElement => el('span', `paper-blank paper-blank-${size}`);

/** A value, or a blank where there is none. */
export const orBlank = (value: string | null, size: 'short' | 'wide' = 'wide'): PaperContent =>
  value === null || value === '' ? blank(size) : value;

/** The head of a sheet: what it is, of what, and for whom. */
export const head = (input: { readonly title: string; readonly under: string }): PaperElement =>
  el('header', 'paper-head', el('h1', '', input.title), input.under === '' ? null : el('p', '', input.under));

export const section = (title: string, ...children: Optional[]): PaperElement =>
  el('section', 'paper-section', el('h2', '', title), ...children);

export const para = (text: string, kind = ''): PaperElement => el('p', kind, text);

/** Names with what they are: "Lot ASH-7K3". */
export function facts(
  rows: readonly { readonly name: string; readonly value: string | null }[],
  room: 'three' | 'wide' | 'one' = 'three',
): PaperElement {
  return el(
    'dl',
    room === 'three' ? 'paper-facts' : `paper-facts paper-facts-${room}`,
    rows.map(({ name, value }) => el('div', '', el('dt', '', name), el('dd', '', orBlank(value)))),
  );
}

/** A list of plain lines. */
export const list = (items: readonly PaperContent[], kind = 'paper-list'): PaperElement =>
  el('ul', kind, items.map((item) => el('li', '', item))); // prettier-ignore

/** Something to tick off, with its time and how much of it. */
export interface Tick {
  readonly when: string | null;
  readonly what: string;
  readonly amount: string | null;
}

/** Lines with a box before each. */
export function ticks(items: readonly Tick[]): PaperElement {
  const line = ({ when, what, amount }: Tick): PaperElement =>
    el(
      'li',
      '',
      el('span', { class: 'paper-tick', 'aria-hidden': 'true' }),
      when === null ? null : el('strong', 'paper-when', when),
      el('span', 'paper-what', what, amount === null ? null : el('strong', 'paper-amount', amount)),
    );
  return el('ul', 'paper-ticks', items.map(line));
}

/** A table; a null cell is left empty to be written in. */
export function table(input: {
  readonly head: readonly string[];
  readonly rows: readonly (readonly (PaperContent | null)[])[];
  readonly kind?: string;
  readonly caption?: string;
}): PaperElement {
  const { kind = '', caption } = input;
  const row = (cells: readonly (PaperContent | null)[]): PaperElement =>
    el('tr', '', cells.map((cell, index) => (index === 0 ? el('th', { scope: 'row' }, cell) : el('td', cell === null ? 'paper-open' : '', cell)))); // prettier-ignore
  return el(
    'table',
    `paper-table ${kind}`.trim(),
    caption === undefined ? null : el('caption', '', caption),
    el('thead', '', el('tr', '', input.head.map((name) => el('th', { scope: 'col' }, name)))), // prettier-ignore
    el('tbody', '', input.rows.map(row)),
  );
}

/** A framed word of caution, or what must not be overlooked. */
export const box = (title: string, ...children: Optional[]): PaperElement =>
  el('section', 'paper-box', el('h2', '', title), ...children);

/** Ruled lines to write on under a word. */
export const lines = (label: string, count: number): PaperElement =>
  el(
    'div',
    'paper-lines',
    el('p', '', label),
    Array.from({ length: count }, () => blank()),
  );
