import type { Book } from '../../../exchange/book.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Event } from '../../../record/event.ts';
import { foldOnce } from '../log/fold-once.ts';
import { openBatch, type Batch } from '../vat/batch.ts';
import type { Telling } from '../vat/said.ts';
import { customaryDay, firstChoices, isNoted, labelBody, labelProblems, labelView, packedAtOf, type LabelChoices, type LabelView } from './label-view.ts'; // prettier-ignore

/** Labels of all pots that were opened together: each with its pot's name, its lot and what was weighed of it. */

type OpenBatch = Extract<Batch, { state: 'open' }>;

/** The pots of a batch's class that can be shown, in the order in which they were opened; it alone where it has no class. */
export function classOf(input: {
  readonly batchId: string;
  readonly streams: ReadonlyMap<string, readonly Event[]>;
  readonly isReady: boolean;
  readonly book?: Book;
}): readonly OpenBatch[] {
  const { batchId, streams, isReady, book } = input;
  const own = streams.get(batchId);
  const id = own === undefined ? null : (foldOnce(own).together?.id ?? null);
  const found = [...streams].filter(
    ([streamId, events]) =>
      streamId === batchId || (id !== null && streamId.startsWith('batch:') && foldOnce(events).together?.id === id),
  );
  return found
    .map(([streamId, events]) => openBatch({ streamId, events, isReady, ...(book === undefined ? {} : { book }) }))
    .filter((batch) => batch.state === 'open')
    .toSorted((a, b) => (a.record.together?.nth ?? 0) - (b.record.together?.nth ?? 0));
}

/** Net weights of what a pot gave, g: of each piece on the scale after the make, else of all of it; one blank where nothing was weighed. */
export function netsOf(record: BatchRecord): readonly string[] {
  const packedAt = packedAtOf(record);
  const grams = (massKg: number): string => String(Math.round(massKg * 1000));
  const pieces = record.weighed.filter(({ what, at }) => what === 'piece' && at >= packedAt);
  if (pieces.length > 0) return pieces.map(({ massKg }) => grams(massKg));
  const cheese = record.weighed.findLast(({ what }) => what === 'cheese');
  return [cheese === undefined ? '' : grams(cheese.massKg)];
}

/** What the form begins with: the earliest of the pots' own last days, so that none is told too late. */
export function firstClassChoices(pots: readonly OpenBatch[]): LabelChoices {
  const all = pots.map((pot) => firstChoices(pot));
  const [first = { dating: 'useBy', day: '', netG: '' }] = all.toSorted((a, b) => (a.day < b.day ? -1 : 1));
  return { ...first, netG: '' };
}

/** The pot whose customary day is the earliest: what the form tells of keeping is told of it. */
export const firstToGo = (pots: readonly OpenBatch[]): OpenBatch | undefined =>
  pots.toSorted((a, b) => (customaryDay(a) < customaryDay(b) ? -1 : 1))[0];

/** Every label of the class, pot after pot. */
export const classLabels = (input: {
  readonly pots: readonly OpenBatch[];
  readonly choices: LabelChoices;
  readonly telling: Omit<Telling, 'zeroAt'>;
}): readonly LabelView[] =>
  input.pots.flatMap(({ record, plan }) =>
    netsOf(record).map((netG) => ({
      ...labelView({ record, plan, choices: { ...input.choices, netG }, telling: { ...input.telling, zeroAt: record.zeroAt } }),
      pot: record.name,
    })),
  ); // prettier-ignore

/** What is wrong with the day for any of the pots. */
export function classProblems(input: { readonly pots: readonly OpenBatch[]; readonly choices: LabelChoices } & Pick<Telling, 'say' | 'write'>): { readonly day?: string } {
  const [first] = input.pots.flatMap(({ record }) => labelProblems({ ...input, record }).day ?? []);
  return first === undefined ? {} : { day: first };
} // prettier-ignore

/** What the records are to keep of these labels: nothing of a pot whose record says it already. */
export const classNotes = (pots: readonly OpenBatch[], choices: LabelChoices) =>
  pots
    .filter(({ record, plan }) => !isNoted({ record, plan, choices }))
    .map(({ record, plan, streamId }) => ({
      kind: 'labelled' as const,
      streamId,
      body: labelBody({ record, plan, choices }),
    }));
