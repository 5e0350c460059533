import type { ListedMake } from './listed-make.ts';
import { writtenFacts } from './written-facts.ts';

let listed: readonly ListedMake[] | null = null;

/** The facts of every make of this build, easiest first; the makes themselves come when they are asked for (`make-shelf.ts`). */
export function listedMakes(): readonly ListedMake[] {
  listed ??= [...writtenFacts()].sort(
    (a, b) => a.facts.difficulty - b.facts.difficulty || a.facts.name.localeCompare(b.facts.name),
  );
  return listed;
}
