/** A packet or bottle as it is typed into its form, and the notes that keep it. */
import { readTyped, shortText } from '../../../exchange/typed-quantity.ts';
import { typedUnit, typedValue, unitOfField } from '../../../exchange/told/unit-of.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { judgeValue, type QuantityName } from '../../../make/quantity.ts';
import type { Problem } from '../../../numbers/validity.ts';
import type { LOT_KINDS } from '../../../record/event.ts';
import type { LotRecord } from '../../../record/lot-record.ts';
import type { Note } from '../log/event-log.ts';

export type LotKind = (typeof LOT_KINDS)[number];
/** What is typed; `strength` is the label's, in the unit that the form has. */
export const LOT_NUMBERS = ['strength', 'treatsL', 'massG'] as const;
/** How much came and what it cost, of any kind. */
export const STORE_NUMBERS = ['amount', 'price'] as const;
export type LotNumber = (typeof LOT_NUMBERS)[number];

export type StoreNumber = (typeof STORE_NUMBERS)[number];
export type LotUnit = NonNullable<LotRecord['amount']>['unit'];

export interface LotDraft {
  readonly kind: LotKind;
  readonly name: string;
  readonly form: string;
  readonly texts: Readonly<Record<LotNumber, string>> & Readonly<Partial<Record<StoreNumber, string>>>;
  /** Unit that the amount is counted in. */
  readonly amountUnit?: LotUnit;
  /** Local days, `2026-11-25`; empty where nobody knows. */
  readonly receivedOn: string;
  readonly expiresOn?: string;
  readonly openedOn: string;
}

/** The forms of each kind, the commonest first. */
export const LOT_FORMS = {
  rennet: ['liquid', 'powder', 'tablet'],
  culture: ['freeze-dried', 'frozen'],
  calcium: ['liquid'],
  milk: [],
  cream: [],
  salt: [],
  acid: ['liquid', 'powder'],
  lipase: ['powder', 'liquid'],
  ripeningCulture: ['freeze-dried', 'liquid'],
  colour: ['liquid'],
  wax: [],
  other: [],
} as const satisfies Record<LotKind, readonly string[]>;

/** The units that each kind is bought and counted in, the commonest first. */
export const UNITS_OF: Readonly<Record<LotKind, readonly LotUnit[]>> = {
  rennet: ['mL', 'g', 'tablets'],
  culture: ['packets', 'g'],
  calcium: ['mL', 'g'],
  milk: ['L'],
  cream: ['L', 'mL'],
  salt: ['kg', 'g'],
  acid: ['g', 'mL', 'L', 'kg'],
  lipase: ['g', 'mL', 'packets'],
  ripeningCulture: ['packets', 'g', 'mL'],
  colour: ['mL', 'g'],
  wax: ['kg', 'g'],
  other: ['g', 'kg', 'mL', 'L', 'packets', 'tablets'],
};

/** The numbers that a label of each kind may state. */
export const NUMBERS_OF = {
  rennet: ['strength'],
  culture: ['treatsL', 'massG'],
  calcium: ['strength'],
  milk: [],
  cream: [],
  salt: [],
  acid: ['strength'],
  lipase: [],
  ripeningCulture: ['treatsL', 'massG'],
  colour: [],
  wax: [],
  other: [],
} as const satisfies Record<LotKind, readonly LotNumber[]>;

const STRENGTH_UNITS: Readonly<Record<string, string>> = { powder: 'IMCU/g', tablet: 'IMCU/tablet' };

/** The unit that the label's strength is counted in. */
export const strengthUnit = ({ kind, form }: Pick<LotDraft, 'kind' | 'form'>): string =>
  kind === 'calcium' || kind === 'acid' ? '%' : (STRENGTH_UNITS[form] ?? 'IMCU/mL');

/** A blank form of one kind. */
export function freshLot(input: { readonly kind: LotKind; readonly today: string }): LotDraft {
  const texts = { strength: '', treatsL: '', massG: '' };
  return {
    kind: input.kind,
    name: '',
    form: LOT_FORMS[input.kind][0] ?? '',
    texts,
    receivedOn: input.today,
    openedOn: '',
  };
}

/** A lot on the list, back in its form. */
export function draftOfLot(input: { readonly lot: LotRecord; readonly units: UnitSystem }): LotDraft {
  const { lot, units } = input;
  const kind = lot.kind ?? 'rennet';
  const litres = lot.treatsL === null ? null : (typedValue({ value: lot.treatsL, unit: unitOfField('milkL'), units }) ?? lot.treatsL); // prettier-ignore
  const text = (value: number | null): string => (value === null ? '' : shortText(value));
  return {
    kind,
    name: lot.name,
    form: lot.form ?? LOT_FORMS[kind][0] ?? '',
    texts: { strength: text(lot.strength?.value ?? null), treatsL: text(litres), massG: text(lot.massG), amount: text(lot.amount?.value ?? null), price: text(lot.price) }, // prettier-ignore
    ...(lot.amount === null ? {} : { amountUnit: lot.amount.unit }),
    receivedOn: lot.receivedOn ?? '',
    expiresOn: lot.expiresOn ?? '',
    openedOn: lot.openedOn ?? '',
  };
}

/**
 * The notes that keep what was typed, or everything that is wrong with it. A changed lot is received again in other
 * words: the latest word counts, and the earlier ones stay in the log.
 * @param input.was the lot as it stands, where one is changed
 */
export function lotNotes(input: {
  readonly draft: LotDraft;
  readonly units: UnitSystem;
  readonly streamId: string;
  readonly was: LotRecord | null;
}): { readonly notes: readonly Note[] } | { readonly problems: readonly Problem[] } {
  const { draft, units, streamId, was } = input;
  const { kind, form } = draft;
  const name = draft.name.trim();
  const labelled: readonly LotNumber[] = NUMBERS_OF[kind];
  const read = labelled.map((field) => ({ field, ...readNumber({ field, draft, units }) }));
  const [amount, price] = STORE_NUMBERS.map((field) => readPlain(draft.texts[field] ?? '', field));
  const plain = [amount, price].flatMap((one) => (one?.problem == null ? [] : [one.problem]));
  const problems = [...plain, ...(name === '' ? [NO_NAME] : []), ...read.flatMap(({ problem }) => (problem === null ? [] : [problem]))]; // prettier-ignore
  if (problems.length > 0) return { problems };
  const valueOf = (field: LotNumber): number | undefined => read.find((one) => one.field === field)?.value ?? undefined;
  const strength = valueOf('strength');
  const body = {
    lotKind: kind,
    name,
    ...(form === '' ? {} : { form }),
    ...(strength === undefined ? {} : { strength: { value: strength, unit: strengthUnit(draft) } }),
    treatsL: valueOf('treatsL'),
    massG: valueOf('massG'),
    receivedOn: dayOrNone(draft.receivedOn),
    expiresOn: dayOrNone(draft.expiresOn ?? ''),
    ...(amount?.value == null ? {} : { amount: { value: amount.value, unit: draft.amountUnit ?? UNITS_OF[kind][0] } }),
    price: price?.value ?? undefined,
  };
  const isOpened = draft.openedOn !== '' && draft.openedOn !== (was?.openedOn ?? '');
  return {
    notes: [
      { kind: 'lotReceived', streamId, body },
      ...(isOpened ? [{ kind: 'lotOpened', streamId, body: { openedOn: draft.openedOn } }] : []),
    ],
  };
}

const NO_NAME: Problem = { code: 'missing', field: 'name', value: '', expected: 'a name', remedy: 'Write what you will know it by.' }; // prettier-ignore

const dayOrNone = (day: string): string | undefined => (day === '' ? undefined : day);

function quantityOf(field: LotNumber, kind: LotKind): QuantityName {
  if (field === 'treatsL') return 'packetTreatsL';
  if (field === 'massG') return 'packetMassG';
  return kind === 'calcium' ? 'calciumSolutionPercent' : 'rennetImcuPerMl';
}

/** A plain figure above 0 (a price may be nothing); null where it is left blank. */
function readPlain(
  text: string,
  field: StoreNumber,
): { readonly value: number | null; readonly problem: Problem | null } {
  if (text.trim() === '') return { value: null, problem: null };
  const read = readTyped({ text, field });
  if ('problem' in read) return { value: null, problem: read.problem };
  const isPossible = field === 'price' ? read.value >= 0 : read.value > 0;
  if (isPossible) return { value: read.value, problem: null };
  return { value: null, problem: { code: 'impossible', field, value: read.value, expected: 'more than 0', remedy: 'Leave it blank where nobody knows.' } }; // prettier-ignore
}

/** One number of the label: null where it is left blank. What is only unusual is asked about when it is planned with. */
function readNumber(input: { readonly field: LotNumber; readonly draft: LotDraft; readonly units: UnitSystem }): {
  readonly value: number | null;
  readonly problem: Problem | null;
} {
  const { field, draft, units } = input;
  const text = draft.texts[field];
  if (text.trim() === '') return { value: null, problem: null };
  const unit = typedUnit({ unit: unitOfField('milkL'), units }) ?? 'L';
  const typed = field === 'treatsL' ? { unit, into: 'L' as const } : {};
  const read = readTyped({ text, field, ...typed });
  if ('problem' in read) return { value: null, problem: read.problem };
  if (draft.kind === 'acid') return acidStrength(read.value);
  const judged = judgeValue({ quantity: quantityOf(field, draft.kind), value: read.value, field });
  return judged.verdict === 'refused' ? { value: null, problem: judged.problem } : { value: read.value, problem: null };
}

/** Vinegar of 5 %, lactic acid of 88 %, citric acid as it is. */
function acidStrength(value: number): { readonly value: number | null; readonly problem: Problem | null } {
  if (value > 0 && value <= 100) return { value, problem: null };
  return { value: null, problem: { code: 'impossible', field: 'strength', value, unit: '%', expected: '1 to 100 %', remedy: 'Copy the label: vinegar 5 %, citric acid 100 %.' } }; // prettier-ignore
}
