import type { Mover } from '../../../forecast/movers.ts';

const MOVES = 0.15; // standard deviations of the aim: less is lost in its scatter; our own choice
const MOST = 2; // one or two things are changed gladly, three are not: our own choice

/** What is freed where the maker has not chosen: the one or two things that move the aim most. */
export const worthFreeing = (movers: readonly Mover[]): string[] => {
  const strong = movers.filter(({ effect }) => effect >= MOVES).slice(0, MOST);
  return (strong.length > 0 ? strong : movers.slice(0, 1)).map(({ id }) => id);
};

const OFFERED = 6;
const SHOWN_FROM = 0.05; // below this it is only listed when asked for

/** What is offered to be freed, the strongest first, and what is already chosen. */
export function offered(input: {
  readonly movers: readonly Mover[];
  readonly chosen: readonly string[];
  readonly all: boolean;
}): readonly Mover[] {
  const { movers, chosen, all } = input;
  if (all) return movers;
  const strongest = movers.filter(({ effect }) => effect >= SHOWN_FROM).slice(0, OFFERED);
  return movers.filter((mover) => strongest.includes(mover) || chosen.includes(mover.id));
}
