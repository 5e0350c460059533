/** A name that a composition could bear, as calculators give it out. */
import { z } from 'zod';
import { marginOn, type NamedCheese, nameVerdicts, type NameVerdict } from '../../science/yield-names.ts';

const margin = z.number().nullable();

/** Margins in percentage points: to the nearest limit of its kind, negative where it is missed, null without such a limit. */
export const nameSchema = z.strictObject({
  id: z.string(),
  name: z.string(),
  rule: z.string(),
  marginPoints: z.number(),
  moistureMarginPoints: margin,
  fatMarginPoints: margin,
  moistureInFatFreeMarginPoints: margin,
  needsPasteurisedMilk: z.boolean(),
  source: z.string(),
  unconfirmed: z.boolean(),
});
export type NameOut = z.output<typeof nameSchema>;

function nameOut(verdict: NameVerdict): NameOut {
  const { standard } = verdict;
  return {
    id: standard.id,
    name: standard.name,
    rule: standard.rule,
    marginPoints: verdict.marginPoints,
    moistureMarginPoints: marginOn(verdict, ['moisture', 'fatFreeDryMatter']),
    fatMarginPoints: marginOn(verdict, ['fat', 'fatInDryMatter']),
    moistureInFatFreeMarginPoints: marginOn(verdict, ['moistureInFatFree']),
    needsPasteurisedMilk: standard.needsPasteurisedMilk ?? false,
    source: standard.source,
    unconfirmed: standard.unconfirmed ?? false,
  };
}

/** Names met, and names missed by at most so many points, nearest first. */
export function namesOf(input: { readonly cheese: NamedCheese; readonly withinPoints: number }): {
  readonly meets: NameOut[];
  readonly misses: NameOut[];
} {
  const verdicts = nameVerdicts(input.cheese);
  return {
    meets: verdicts.filter((verdict) => verdict.meets).map(nameOut),
    misses: verdicts
      .filter((verdict) => !verdict.meets && verdict.marginPoints >= -input.withinPoints)
      .sort((a, b) => b.marginPoints - a.marginPoints)
      .map(nameOut),
  };
}

export const NAME_SOURCES = [
  '21 CFR 133, section texts read or a textbook table of the 2003 edition, seen at second hand',
  'Codex general standard A-6-1978, extract seen; single Codex cheeses from memory, unconfirmed',
];
export const NAME_ASSUMPTION = 'composition is one condition of a name among several; your local code decides';
