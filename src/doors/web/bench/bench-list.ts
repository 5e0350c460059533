/** The sums there are, by group, and those that have the words somebody looks for. */
import { calculators } from '../../../exchange/calc/registry.ts';
import { told, type Say } from '../../../exchange/words.ts';
import { askedShort } from './sentence-parts.ts';
import { GROUPS, shapeOf, type SumGroup } from '../../../exchange/told/sum-shapes.ts';
import { readable, sayFirst } from '../../../exchange/told/sum-words.ts';

export interface ListedSum {
  readonly name: string;
  readonly group: SumGroup;
  readonly title: string;
  /** What it answers, in a line. */
  readonly answers: string;
}

/** A sum's own words; the contract's where the catalogue has none yet. */
export function sumTitle(say: Say, name: string): string {
  return sayFirst(say, [`bench:sums.${name}.title`]) ?? readable(name);
}

/** Letters without their accents: nobody who looks for something types them all. */
const plainLetters = (text: string): string => text.normalize('NFD').replaceAll(/\p{M}/gu, '');

/** The sentence with its blanks. */
export function sumSentence(say: Say, name: string): string {
  return sayFirst(say, [`bench:sums.${name}.ask`]) ?? calculators.get(name)?.answers ?? name;
}

/**
 * The list, in the order of the contract inside each group.
 * @param input.looked words to look for; each must be in the title, the question or the words of the trade beside it
 */
export function listedSums(input: { readonly say: Say; readonly looked: string }): {
  readonly groups: readonly { readonly group: SumGroup; readonly sums: readonly ListedSum[] }[];
  readonly count: number;
} {
  const { say } = input;
  const looked = input.looked
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  const all = [...calculators.values()].map(({ name, answers }): ListedSum & { readonly text: string } => {
    const title = sumTitle(say, name);
    const group = shapeOf(name).group;
    const more = sayFirst(say, [`bench:sums.${name}.words`]) ?? '';
    const answered = told(say, answers);
    const text = [title, answered, askedShort(sumSentence(say, name)), more, name].join(' ').toLowerCase();
    return { name, group, title, answers: answered, text: plainLetters(text) };
  });
  const found = all.filter(({ text }) => looked.every((word) => text.includes(plainLetters(word))));
  const groups = GROUPS.map((group) => ({ group, sums: found.filter((sum) => sum.group === group) }));
  return { groups: groups.filter(({ sums }) => sums.length > 0), count: found.length };
}

/** The other sums of the same group. */
export function sumsBeside(input: { readonly say: Say; readonly name: string }): readonly ListedSum[] {
  const { group } = shapeOf(input.name);
  const own = listedSums({ say: input.say, looked: '' }).groups.find((one) => one.group === group);
  return (own?.sums ?? []).filter(({ name }) => name !== input.name);
}
