import type { Plan } from '../../../make/plan.ts';
import { convert } from '../../../numbers/units.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Telling } from '../vat/said.ts';
import { labelIngredients } from './label-ingredients.ts';

/** How a label is dated; which of them is right, local law decides. */
export type Dating = 'useBy' | 'bestBefore' | 'byHand';

/** What the maker decides about the labels. */
export interface LabelChoices {
  readonly dating: Dating;
  /** Last day, `2026-11-17`; empty prints a blank. */
  readonly day: string;
  /** Net weight of each, g, as typed; empty prints a blank. */
  readonly netG: string;
}

/** A piece of text; the allergen is set apart. */
export interface LabelPart {
  readonly text: string;
  readonly isAllergen: boolean;
}

/** One label in words. Null is a ruled blank, to be filled in by hand. */
export interface LabelView {
  readonly name: string;
  /** Whose pot it came from, where labels of several lie on one sheet; null where they are of one. */
  readonly pot: string | null;
  readonly lot: string;
  readonly made: string;
  readonly until: { readonly name: string; readonly day: string | null };
  readonly keep: string;
  readonly ingredients: readonly LabelPart[];
  readonly contains: readonly LabelPart[];
  readonly raw: string | null;
  readonly netWeight: string | null;
}

const DAY_MS = 86_400_000;
/** A piece lighter than a crumb or heavier than a cartload is a slip of the pen: our own choice. */
const NET_G = { low: 1, high: 100_000 } as const;

/** Local day of an instant, `2026-11-12`. */
export function isoDay(at: number): string {
  const day = new Date(at);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}

/** Noon of a local day, so that no clock change moves it; null while it is half typed. */
export function noonOf(day: string): number | null {
  const [, year, month, date] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day) ?? [];
  if (year === undefined || month === undefined || date === undefined) return null;
  const at = new Date(Number(year), Number(month) - 1, Number(date), 12).getTime();
  return isoDay(at) === day ? at : null;
}

/** When the cheese was packed: the end of the last step that is over, else the day it was begun. */
export const packedAtOf = (record: BatchRecord): number =>
  record.steps.reduce((latest, step) => Math.max(latest, step.endedAt ?? 0), record.zeroAt);

/** The date that the make's own keeping time would give; only a hint, for the maker decides. */
export const customaryDay = (input: { readonly record: BatchRecord; readonly plan: Plan }): string =>
  isoDay(packedAtOf(input.record) + input.plan.make.shelfLife.days.value * DAY_MS);

/** What the form begins with: the label as it was noted last, else the customary date. */
export function firstChoices(input: { readonly record: BatchRecord; readonly plan: Plan }): LabelChoices {
  const noted = input.record.labelled.at(-1);
  if (noted?.bestBefore !== undefined) return { dating: 'bestBefore', day: noted.bestBefore, netG: '' };
  if (noted?.useBy !== undefined) return { dating: 'useBy', day: noted.useBy, netG: '' };
  return { dating: noted === undefined ? 'useBy' : 'byHand', day: customaryDay(input), netG: '' };
}

/** What is wrong with the choices, by field; empty where the labels can be printed. */
export function labelProblems(input: { readonly choices: LabelChoices; readonly record: BatchRecord } & Pick<Telling, 'say' | 'write'>): { readonly day?: string; readonly netG?: string } {
  const { choices, record, say, write } = input;
  const at = noonOf(choices.day);
  const packed = isoDay(packedAtOf(record));
  const isTyped = choices.dating !== 'byHand' && choices.day !== '';
  const day = !isTyped ? null : at === null ? say('labels:wrong.day') : choices.day < packed ? say('labels:wrong.early', { made: write.date(packedAtOf(record)) }) : null; // prettier-ignore
  const isNet = choices.netG.trim() === '' || netGrams(choices.netG) !== null;
  return { ...(day === null ? {} : { day }), ...(isNet ? {} : { netG: say('labels:wrong.net', { value: choices.netG }) }) };
} // prettier-ignore

function netGrams(typed: string): number | null {
  const value = Number(typed.trim().replace(',', '.'));
  return typed.trim() !== '' && value >= NET_G.low && value <= NET_G.high ? value : null;
}

/** The words of one label. What nobody knows is a blank, never a zero. */
export function labelView(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly choices: LabelChoices;
  readonly telling: Telling;
}): LabelView {
  const { record, plan, choices, telling } = input;
  const { say, write } = telling;
  const { milk } = plan.setup;
  const dayAt = choices.dating === 'byHand' ? null : noonOf(choices.day);
  const words = labelIngredients(plan).map(
    (id) =>
    id === 'milk' ? say(`labels:milk.${milk.treatment}`, { milk: say(`labels:species.${milk.species}`) }) : say(`labels:ingredient.${id}`), // prettier-ignore
  );
  return {
    name: plan.make.name,
    pot: null,
    lot: record.lotCode,
    made: write.date(packedAtOf(record)),
    until: { name: say(`labels:dating.${choices.dating}`), day: dayAt === null ? null : write.date(dayAt) },
    keep: say('labels:keep', { temperature: write.degrees(plan.make.shelfLife.keptAtC.value).text }),
    ingredients: partsOf(say('labels:ingredients', { list: words.join(', ') })),
    contains: partsOf(say('labels:contains')),
    raw: milk.treatment === 'raw' ? say('labels:rawMilk') : null,
    netWeight: netText(choices.netG, telling),
  };
}

/** Grams, and ounces first where the reader weighs in them: a US label carries both (from memory; local law decides). */
function netText(typed: string, { write }: Telling): string | null {
  const grams = netGrams(typed);
  if (grams === null) return null;
  const metric = grams >= 1000 ? `${write.number(grams / 1000, 2)}\u202Fkg` : `${write.number(grams, 0)}\u202Fg`;
  if (write.units !== 'us') return metric;
  return `${write.number(convert({ value: grams, from: 'g', to: 'oz' }), 1)}\u202Foz (${metric})`;
}

/** Words between two stars are the allergen. */
export function partsOf(text: string): readonly LabelPart[] {
  return text
    .split('*')
    .map((part, index) => ({ text: part, isAllergen: index % 2 === 1 }))
    .filter((part) => part.text !== '');
}

/** The code as it is read to somebody over the noise: figure by figure, the check letter last. */
export const spokenLot = (lotCode: string): string => Array.from(lotCode.replaceAll('-', ''), (sign) => sign).join(' ');

/** What the record keeps of the labels, in the body of its event. */
export function labelBody(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly choices: LabelChoices;
}): object {
  const { record, plan, choices } = input;
  const isDated = choices.dating !== 'byHand' && noonOf(choices.day) !== null;
  return {
    name: plan.make.name,
    lotCode: record.lotCode,
    packedOn: isoDay(packedAtOf(record)),
    ...(isDated ? { [choices.dating]: choices.day } : {}),
    keptAtC: plan.make.shelfLife.keptAtC.value,
  };
}

/** True where the record already says of its last labels what these say. */
export function isNoted(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly choices: LabelChoices;
}): boolean {
  const last = input.record.labelled.at(-1);
  if (last === undefined) return false;
  const { name, lotCode, packedOn, useBy, bestBefore, keptAtC } = last;
  const kept = { name, lotCode, packedOn, ...(useBy === undefined ? {} : { useBy }), ...(bestBefore === undefined ? {} : { bestBefore }), keptAtC }; // prettier-ignore
  return JSON.stringify(kept) === JSON.stringify(labelBody(input));
}
