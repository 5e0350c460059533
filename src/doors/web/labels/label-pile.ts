import type { Language, Say } from '../../../exchange/words.ts';
import type { PaperId, StockId } from './label-stock.ts';

/** How many labels, on what. Counts stand as they were typed. */
export interface Pile {
  readonly count: string;
  readonly used: string;
  readonly stock: StockId;
  readonly paper: PaperId;
}

/** More labels than one batch has pieces: our own choice. */
const MOST = 480;

export const firstPile = (language: Language): Pile => ({
  count: '12',
  used: '0',
  stock: '70x37',
  paper: language === 'en-US' ? 'Letter' : 'A4',
});

const whole = (typed: string, low: number, high: number): number | null =>
  /^\d{1,3}$/.test(typed.trim()) && Number(typed) >= low && Number(typed) <= high ? Number(typed) : null;

/** What is wrong with the counts, by field. */
export function pileProblems(input: { readonly pile: Pile; readonly perPage: number; readonly say: Say }): {
  readonly count?: string;
  readonly used?: string;
} {
  const { pile, perPage, say } = input;
  const told = (value: string, low: number, high: number): string => say('labels:wrong.count', { value, low, high });
  return {
    ...(whole(pile.count, 1, MOST) === null ? { count: told(pile.count, 1, MOST) } : {}),
    ...(whole(pile.used, 0, perPage - 1) === null ? { used: told(pile.used, 0, perPage - 1) } : {}),
  };
}

/** The counts as numbers; one label on a fresh sheet where they cannot be read. */
export const pileOf = (input: {
  readonly pile: Pile;
  readonly perPage: number;
}): { readonly count: number; readonly used: number } => ({
  count: whole(input.pile.count, 1, MOST) ?? 1,
  used: whole(input.pile.used, 0, input.perPage - 1) ?? 0,
});
