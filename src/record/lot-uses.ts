import type { BatchRecord } from './batch-record.ts';

/**
 * How many batches were made with each lot, by its stream id: those whose plan named it and into which that ingredient
 * went. The worked example's batches count for nobody's packet.
 */
export function lotUses(records: readonly BatchRecord[]): ReadonlyMap<string, number> {
  const uses = new Map<string, number>();
  for (const { answers, added, demo } of records) {
    if (demo || answers === null) continue;
    const named = { culture: answers.culture?.lot, rennet: answers.rennet?.lot, calcium: answers.calcium?.lot };
    const wentIn = new Set(
      added.filter(({ fractionOfPlan }) => fractionOfPlan > 0).map(({ ingredient }) => ingredient),
    );
    for (const [ingredient, lotId] of Object.entries(named)) {
      if (lotId !== undefined && wentIn.has(ingredient)) uses.set(lotId, (uses.get(lotId) ?? 0) + 1);
    }
  }
  return uses;
}
