import type { Assumption } from '../../../make/setup.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { typedText, type Draft } from './draft.ts';
import { factOf, FACT_PATHS, isFactPath, type Fact, type FactPath } from './draft-fields.ts';

/** One fact beside the sentence: what stands now, and whether the maker said so. */
export interface FactRow {
  readonly path: FactPath;
  readonly fact: Fact;
  /** As it stands in the field: typed, or the assumed value written in the reader's unit. */
  readonly text: string;
  readonly isAssumed: boolean;
  /** The one answer that would narrow the finish most. */
  readonly narrowsMost: boolean;
  readonly source: string | null;
}

/** Facts that the sentence itself asks for; they need no second place. */
export const IN_SENTENCE: ReadonlySet<string> = new Set([
  'milk.volumeL', 'milk.treatment', 'culture.packetTreatsL', 'rennet.strengthImcuPerMl', 'pot.volumeL',
]); // prettier-ignore

const WIDTHS = { much: 0, some: 1, little: 2 } as const;

/** What was assumed, widest first, then what the maker has said beyond the sentence. */
export function factRows(input: {
  readonly assumed: readonly Assumption[];
  readonly draft: Draft;
  readonly units: UnitSystem;
  /** Path of the answer that would narrow the finish most. */
  readonly narrowest: string | null;
}): FactRow[] {
  const { assumed, draft, units } = input;
  const { narrowest } = input;
  const open = assumed
    .filter((one) => isFactPath(one.field) && !IN_SENTENCE.has(one.field) && !(one.field in draft.facts))
    .sort((a, b) => WIDTHS[a.widens] - WIDTHS[b.widens])
    .flatMap((one) =>
      isFactPath(one.field)
        ? [{ path: one.field, fact: factOf(one.field), text: assumedText(one, units), isAssumed: true, narrowsMost: one.field === narrowest, source: one.source }] // prettier-ignore
        : [],
    );
  const said = FACT_PATHS.flatMap((path) => {
    const text = draft.facts[path];
    return text === undefined || IN_SENTENCE.has(path)
      ? []
      : [{ path, fact: factOf(path), text, isAssumed: false, narrowsMost: false, source: null }];
  });
  return [...open, ...said];
}

/** An assumed value as the maker would type it. */
function assumedText(one: Assumption, units: UnitSystem): string {
  if (typeof one.value === 'boolean') return one.value ? 'yes' : 'no';
  if (typeof one.value === 'string' || !isFactPath(one.field)) return String(one.value);
  return typedText({ path: one.field, value: one.value, units });
}
