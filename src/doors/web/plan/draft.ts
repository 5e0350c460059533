import { z } from 'zod';
import { readTyped } from '../../../exchange/typed-quantity.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { answersSchema, type Answers } from '../../../make/setup.ts';
import { convert, type UnitName } from '../../../numbers/units.ts';
import type { Problem } from '../../../numbers/validity.ts';
import { withValue } from './with-value.ts';
import { factOf, isFactPath, type FactPath, type Typed } from './draft-fields.ts';

/** The most pots of one class. */
export const MOST_POTS = 8;
const potsSchema = z.object({ count: z.int().min(1).max(MOST_POTS), apartMin: z.int().min(0).max(120) });
/** A quarter of an hour lets one pair of hands begin one pot before the next. Our own choice. */
export const ONE_POT = { count: 1, apartMin: 15 };

/** What the maker has typed and chosen so far, exactly as typed; kept on the device until it becomes a batch. */
export const draftSchema = z.object({
  makeId: z.string(),
  /** Typed text or chosen word by path in `Answers`; what is absent is assumed. */
  facts: z.record(z.string(), z.string()),
  /** Unit system that bare numbers were typed in. */
  units: z.enum(['metric', 'us']).catch('metric'),
  /** Paths of unusual answers that were looked at again and kept. */
  confirmed: z.array(z.string()),
  /** Packets and bottles of the list that were chosen; what they say stands under what was typed. */
  lots: z
    .object({ rennet: z.string().optional(), culture: z.string().optional(), calcium: z.string().optional() })
    .default({}),
  /** What was chosen of the make, by the id of its free input (`make/changes.ts`). */
  changes: z.record(z.string(), z.number()).default({}),
  /** How many pots at once, and the minutes from one start to the next. */
  pots: potsSchema.catch(ONE_POT),
  clock: z.object({
    mode: z.enum(['done-by', 'start-at']),
    time: z.string(),
    day: z.string(),
  }),
});
export type Draft = z.infer<typeof draftSchema>;

/** The unit a bare number is typed in, and the one the house keeps it in. */
export function unitsOf(typed: Typed, system: UnitSystem): { readonly unit: UnitName; readonly into: UnitName } | null {
  switch (typed) {
    case 'volume':
      return { unit: system === 'us' ? 'us-gallon' : 'L', into: 'L' };
    case 'temperature':
      return { unit: system === 'us' ? 'F' : 'C', into: 'C' };
    case 'difference':
      return { unit: system === 'us' ? 'rise-F' : 'rise-C', into: 'rise-C' };
    case 'mass':
      return { unit: 'g', into: 'g' };
    case 'percent':
    case 'plain':
      return null;
  }
}

/**
 * The draft as answers for the planner. Every fact that cannot be read comes back as a problem at its path, and the
 * rest is still answered, so that one slip does not blank the page.
 */
export function answersOf(input: { readonly draft: Pick<Draft, 'facts' | 'confirmed'>; readonly units: UnitSystem }): {
  readonly answers: Answers | null;
  readonly problems: readonly Problem[];
} {
  const problems: Problem[] = [];
  let nested: unknown = { units: input.units };
  for (const [path, text] of Object.entries(input.draft.facts)) {
    if (!isFactPath(path)) continue;
    const read = readFact({ path, text, units: input.units });
    if (typeof read === 'object') problems.push(read);
    else nested = withValue({ tree: nested, path, value: read });
  }
  if (!('milk.volumeL' in input.draft.facts)) problems.push(noMilk(undefined));
  if (problems.length > 0) return { answers: null, problems };
  const parsed = answersSchema.safeParse(
    input.draft.confirmed.length > 0
      ? withValue({ tree: nested, path: 'confirmed', value: input.draft.confirmed })
      : nested,
  );
  return parsed.success ? { answers: parsed.data, problems } : { answers: null, problems: [noMilk(undefined)] };
}

const noMilk = (value: unknown): Problem => ({
  code: 'missing',
  field: 'milk.volumeL',
  value,
  expected: 'how much milk there is',
  remedy: 'Give how much there is.',
});

function readFact(input: {
  readonly path: FactPath;
  readonly text: string;
  readonly units: UnitSystem;
}): number | string | boolean | Problem {
  const { path, text } = input;
  const fact = factOf(path);
  if (fact.kind === 'choice') return text === 'yes' ? true : text === 'no' ? false : text;
  const units = unitsOf(fact.typed, input.units);
  const read = readTyped({ text, field: path, ...units });
  return 'value' in read ? read.value : read.problem;
}

/** A cup test's span goes with the strength that it is of. */
const isSpanOf = (one: string, path: FactPath): boolean =>
  path === 'rennet.strengthImcuPerMl' && one.startsWith('rennet.testedSpanImcuPerMl.');

/** One fact changed; an empty text leaves a number as typed, `null` gives it back to assumption. */
export function withFact(draft: Draft, path: FactPath, text: string | null): Draft {
  const others = Object.fromEntries(
    Object.entries(draft.facts).filter(([one]) => one !== path && !isSpanOf(one, path)),
  );
  return {
    ...draft,
    facts: text === null ? others : { ...others, [path]: text },
    confirmed: draft.confirmed.filter((one) => one !== path),
  };
}

/** The same answers typed in another unit system; what cannot be read stays as typed, to be set right by hand. */
export function inUnits(draft: Draft, units: UnitSystem): Draft {
  if (draft.units === units) return draft;
  const facts = Object.entries(draft.facts).map(([path, text]): [string, string] => {
    if (!isFactPath(path)) return [path, text];
    const read = readFact({ path, text, units: draft.units });
    return [path, typeof read === 'number' ? typedText({ path, value: read, units }) : text];
  });
  return { ...draft, facts: Object.fromEntries(facts), units };
}

/** A canonical number as it would be typed into its field. */
export function typedText(input: {
  readonly path: FactPath;
  readonly value: number;
  readonly units: UnitSystem;
}): string {
  const fact = factOf(input.path);
  const unit = fact.kind === 'number' ? unitsOf(fact.typed, input.units) : null;
  const typed = unit === null ? input.value : convert({ value: input.value, from: unit.into, to: unit.unit });
  return String(Math.round(typed * 100) / 100);
}

const FIRST_VOLUMES = {
  metric: { 'milk.volumeL': '10', 'culture.packetTreatsL': '10', 'pot.volumeL': '12' },
  us: { 'milk.volumeL': '2', 'culture.packetTreatsL': '2', 'pot.volumeL': '3' },
} as const;

/** What a first visit sees: ordinary values, four of which can be answered in the sentence. */
export function firstDraft(input: {
  readonly today: string;
  readonly makeId: string;
  readonly units: UnitSystem;
}): Draft {
  return {
    makeId: input.makeId,
    facts: { 'milk.treatment': 'pasteurised', ...FIRST_VOLUMES[input.units] },
    units: input.units,
    confirmed: [],
    lots: {},
    changes: {},
    pots: ONE_POT,
    clock: { mode: 'done-by', time: '17:00', day: input.today },
  };
}
