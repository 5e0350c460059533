/** Finding a make by any of its names. */
import type { MakeFacts } from './make-facts.ts';

/** A make that was found, and by which of its names. */
export interface FoundMake {
  readonly facts: MakeFacts;
  /** The other name that was asked for; null where its own name was. Shown beside the make's generic name, never in its place. */
  readonly alias: string | null;
}

/**
 * The makes whose name, or another name of theirs, holds what was typed; accents, case and hyphens do not matter. Names that
 * begin so come first.
 * @param input.typed an empty text finds every make
 */
export function findMakes(input: { readonly makes: readonly MakeFacts[]; readonly typed: string }): FoundMake[] {
  const wanted = plain(input.typed);
  if (wanted === '') return input.makes.map((facts) => ({ facts, alias: null }));
  return input.makes
    .flatMap((facts): { found: FoundMake; rank: number }[] => {
      const own = rankOf(facts.name, wanted);
      if (own !== null) return [{ found: { facts, alias: null }, rank: own }];
      const [best] = facts.aliases
        .flatMap((alias) => {
          const rank = rankOf(alias, wanted);
          return rank === null ? [] : [{ alias, rank }];
        })
        .sort((a, b) => a.rank - b.rank);
      return best === undefined ? [] : [{ found: { facts, alias: best.alias }, rank: best.rank + 0.5 }];
    })
    .sort((a, b) => a.rank - b.rank)
    .map(({ found }) => found);
}

/** 0 where the name begins so, 1 where one of its words does, 2 where it stands inside; null where it does not. */
function rankOf(name: string, wanted: string): number | null {
  const text = plain(name);
  if (text.startsWith(wanted)) return 0;
  if (text.includes(` ${wanted}`)) return 1;
  return text.includes(wanted) ? 2 : null;
}

const plain = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
