/** A cheese put on the shelf, as it is typed: what it is, how many, how heavy, where; and the notes that keep it. */
import { careOfMake } from '../../../exchange/ageing/care-of-make.ts';
import { isStyle, STYLE_CARE, STYLES, type Style } from '../../../exchange/ageing/styles.ts';
import { readTyped, shortText } from '../../../exchange/typed-quantity.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { Say } from '../../../exchange/words.ts';
import { convert } from '../../../numbers/units.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Care } from '../../../record/care-plan.ts';
import { isDemoStream } from '../../../record/event.ts';
import type { KeepingBody } from '../../../record/keeping-events.ts';
import type { Treatment } from '../../../make/make.ts';
import { localDay } from '../plan/wall-clock.ts';
import type { Note } from '../log/event-log.ts';

export type Shape = 'unknown' | 'cylinder' | 'sphere' | 'brick';
export type HowMany = 'each' | 'together';

export interface NewDraft {
  readonly batch: string | null;
  readonly name: string;
  readonly cheese: string;
  readonly style: Style | 'make';
  readonly madeOn: string;
  readonly treatment: Treatment | 'unknown';
  readonly count: string;
  /** Each a cheese of its own, or all tended as one. */
  readonly how: HowMany;
  /** Of each, or of all together. */
  readonly mass: string;
  readonly shape: Shape;
  readonly sizes: readonly [string, string, string];
  readonly place: string;
  readonly shelf: string;
}

export type NewField = 'name' | 'madeOn' | 'count' | 'mass' | 'sizes' | 'shelf';

export const SIZES_OF: Readonly<Record<Shape, readonly ('diameter' | 'height' | 'length' | 'width')[]>> = {
  unknown: [],
  cylinder: ['diameter', 'height'],
  sphere: ['diameter'],
  brick: ['length', 'width', 'height'],
};

const MOST = 48; // our own choice: more pieces than one make gives

/** The form as it opens: from a batch what that says, else blank. */
export function freshPiece(input: { readonly record: BatchRecord | null; readonly today: string; readonly place: string; readonly units: UnitSystem }): NewDraft {
  const { record, today, place, units } = input;
  const blank: NewDraft = { batch: null, name: '', cheese: '', style: 'own', madeOn: today, treatment: 'unknown', count: '1', how: 'each', mass: '', shape: 'unknown', sizes: ['', '', ''], place, shelf: '' };
  if (record === null) return blank;
  const { cheese } = careOfMake(record.make);
  const pieces = record.weighed.filter(({ what }) => what === 'piece');
  const whole = record.weighed.filter(({ what }) => what === 'cheese').at(-1);
  const count = Math.max(1, Math.min(MOST, pieces.length));
  const massKg = pieces.length > 0 ? pieces.reduce((sum, piece) => sum + piece.massKg, 0) / pieces.length : whole?.massKg;
  return {
    ...blank,
    batch: record.batchId,
    name: record.name,
    cheese,
    style: 'make',
    madeOn: localDay(record.zeroAt),
    treatment: record.answers?.milk.treatment ?? 'unknown',
    count: String(count),
    mass: massKg === undefined ? '' : shortText(units === 'us' ? convert({ value: massKg, from: 'kg', to: 'lb' }) : massKg),
  };
} // prettier-ignore

/** The care that was chosen. */
export function careOf(input: { readonly draft: NewDraft; readonly record: BatchRecord | null }): { readonly care: Care; readonly rind: KeepingBody<'pieceMade'>['rind'] } {
  const { draft, record } = input;
  if (draft.style === 'make') return careOfMake(record?.make);
  return STYLE_CARE[draft.style];
} // prettier-ignore

/**
 * The notes of every piece, or the fields that are wrong.
 * @param input.massesKg of each, where the batch weighed them one by one
 */
export function newNotes(input: {
  readonly draft: NewDraft;
  readonly record: BatchRecord | null;
  readonly units: UnitSystem;
  readonly today: string;
  readonly say: Say;
  readonly newStreamId: (type: 'piece') => string;
}): { readonly notes: readonly Omit<Note, 'kinds'>[]; readonly count: number } | { readonly wrong: readonly NewField[] } {
  const { draft, record, units, today, say, newStreamId } = input;
  const wrong: NewField[] = [];
  const name = draft.name.trim();
  if (name === '') wrong.push('name');
  if (!/^\d{4}-\d{2}-\d{2}$/.test(draft.madeOn) || draft.madeOn > today) wrong.push('madeOn');
  const count = Number(draft.count);
  if (!(Number.isInteger(count) && count >= 1 && count <= MOST)) wrong.push('count');
  const massKg = massOf(draft.mass, units);
  if (massKg === null) wrong.push('mass');
  const mm = SIZES_OF[draft.shape].map((_, i) => sizeOf(draft.sizes[i] ?? '', units));
  if (mm.some((size) => size === null)) wrong.push('sizes');
  const shelf = Number(draft.shelf);
  if (draft.shelf !== '' && !(Number.isInteger(shelf) && shelf >= 1 && shelf <= 999)) wrong.push('shelf');
  if (wrong.length > 0) return { wrong };
  const { care, rind } = careOf({ draft, record });
  const isApart = draft.how === 'each' && count > 1;
  const weighed = record?.weighed.filter(({ what }) => what === 'piece').map((piece) => piece.massKg) ?? [];
  const bodies = Array.from({ length: isApart ? count : 1 }, (_, i): KeepingBody<'pieceMade'> => {
    const own = isApart && weighed.length === count ? weighed[i] : massKg;
    return {
      name: isApart ? say('ageing:new.nth', { name, nth: i + 1 }) : name,
      cheese: draft.cheese.trim(),
      madeOn: draft.madeOn,
      rind,
      care,
      ...(!isApart && count > 1 ? { count } : {}),
      ...(own == null ? {} : { massKg: own }),
      ...(draft.batch === null ? {} : { batch: draft.batch }),
      ...(record === null || record.lotCode === '' ? {} : { lotCode: record.lotCode }),
      ...(draft.treatment === 'unknown' ? {} : { treatment: draft.treatment }),
      ...(draft.shape === 'unknown' ? {} : { body: { shape: draft.shape, mm: mm.flatMap((size) => size ?? []) } }),
      ...(draft.place === '' ? {} : { place: draft.place }),
      ...(draft.shelf === '' ? {} : { shelf: shelf + i }),
    };
  });
  // A cheese of the worked example stays on this device, as its batch does.
  const isDemo = draft.batch !== null && isDemoStream(draft.batch);
  const idOf = (): string => (isDemo ? newStreamId('piece').replace(':', ':demo-') : newStreamId('piece'));
  return { notes: bodies.map((body) => ({ kind: 'pieceMade', streamId: idOf(), body })), count: bodies.length };
} // prettier-ignore

function massOf(text: string, units: UnitSystem): number | null | undefined {
  if (text.trim() === '') return undefined;
  const read = readTyped({ text, field: 'massKg', unit: units === 'us' ? 'lb' : 'kg', into: 'kg' });
  return 'problem' in read || !(read.value > 0 && read.value < 100) ? null : read.value;
}

function sizeOf(text: string, units: UnitSystem): number | null {
  const read = readTyped({ text, field: 'mm', unit: units === 'us' ? 'in' : 'cm', into: 'mm' });
  return 'problem' in read || !(read.value >= 5 && read.value <= 2000) ? null : read.value;
}

/** The styles to choose from; a make's own care first, where there is a batch. */
export const stylesFor = (record: BatchRecord | null): readonly (Style | 'make')[] =>
  record === null ? STYLES : ['make', ...STYLES];

export const isStyleChoice = (name: string): name is Style | 'make' => name === 'make' || isStyle(name);
