import { fillSetup } from '../../../make/fill.ts';
import type { Plan } from '../../../make/plan.ts';
import type { Assumption } from '../../../make/setup.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { typedText, type Draft } from './draft.ts';
import { factOf, FACT_PATHS, isFactPath, type Fact, type FactPath } from './draft-fields.ts';
import type { LotFacts } from './lot-facts.ts';

/** One fact beside the sentence: what stands now, and whether the maker said so. */
export interface FactRow {
  readonly path: FactPath;
  readonly fact: Fact;
  /** As it stands in the field: typed, or the assumed value written in the reader's unit. */
  readonly text: string;
  readonly isAssumed: boolean;
  /** Said by a packet or bottle of the list. */
  readonly isFromLot: boolean;
  /** The one answer that would narrow the finish most. */
  readonly narrowsMost: boolean;
  readonly source: string | null;
}

/** Facts that the sentence itself asks for; they need no second place. */
export const IN_SENTENCE: ReadonlySet<string> = new Set([
  'milk.volumeL', 'milk.treatment', 'culture.packetTreatsL', 'rennet.strengthImcuPerMl', 'pot.volumeL',
]); // prettier-ignore
/** Said by a bottle or packet of the list, in its own line. */
const IN_LOT_LINE: ReadonlySet<string> = new Set([
  'rennet.lot', 'rennet.testedSpanImcuPerMl.low', 'rennet.testedSpanImcuPerMl.high', 'culture.lot', 'calcium.lot', 'calcium.has',
]); // prettier-ignore

const WIDTHS = { much: 0, some: 1, little: 2 } as const;

/** What would be assumed of a maker who had only said how much milk there is: it gives every row its place. */
export function usualAssumptions({ plan }: { readonly plan: Plan }): readonly Assumption[] {
  return fillSetup({ make: plan.make, answers: { milk: { volumeL: plan.setup.milk.volumeL } } }).assumed;
}

/**
 * What was assumed and what the maker has said beyond the sentence, in one order: widest first, and a row keeps its
 * place when it is answered, so that nothing jumps from under the finger.
 */
export function factRows(input: {
  readonly assumed: readonly Assumption[];
  /** From `usualAssumptions`. */
  readonly usual: readonly Assumption[];
  readonly draft: Draft;
  /** What the chosen packets and bottles say. */
  readonly lotFacts?: LotFacts;
  readonly units: UnitSystem;
  /** Path of the answer that would narrow the finish most. */
  readonly narrowest: string | null;
}): FactRow[] {
  const { assumed, usual, draft, units, narrowest, lotFacts = {} } = input;
  const open = new Map(assumed.map((one) => [one.field, one]));
  const others = assumed.filter((one) => !usual.some(({ field }) => field === one.field));
  const ordered = [...usual, ...others].sort((a, b) => WIDTHS[a.widens] - WIDTHS[b.widens]).map(({ field }) => field);
  const paths = [...new Set([...ordered.filter(isFactPath), ...FACT_PATHS])];
  return paths.flatMap((path): FactRow[] => {
    if (IN_SENTENCE.has(path) || IN_LOT_LINE.has(path)) return [];
    const text = draft.facts[path];
    const gap = open.get(path);
    const fact = factOf(path);
    if (text !== undefined) {
      const isFromLot = lotFacts[path] === text;
      return [{ path, fact, text, isAssumed: false, isFromLot, narrowsMost: false, source: null }];
    }
    if (gap === undefined) return [];
    return [{ path, fact, text: assumedText(gap, units), isAssumed: true, isFromLot: false, narrowsMost: path === narrowest, source: gap.source }]; // prettier-ignore
  });
}

/** An assumed value as the maker would type it. */
function assumedText(one: Assumption, units: UnitSystem): string {
  if (typeof one.value === 'boolean') return one.value ? 'yes' : 'no';
  if (typeof one.value === 'string' || !isFactPath(one.field)) return String(one.value);
  return typedText({ path: one.field, value: one.value, units });
}
