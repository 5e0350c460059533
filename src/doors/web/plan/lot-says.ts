import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { Setup } from '../../../make/setup.ts';
import { strengthTest } from '../../../record/lot-answers.ts';
import { strengthWords } from '../lots/bottle-words.ts';
import type { KeptLot } from '../lots/kept-lots.ts';
import { lotLines, testLines } from '../lots/lot-lines.ts';
import { wallInstant } from './wall-clock.ts';

/** What the plan takes from a packet, a bottle or a cup test, and what that makes surer. */
export interface Taken {
  readonly id: string;
  readonly title: string;
  readonly lines: readonly string[];
}

/** One entry for each packet and bottle of the list, and one for a cup test that was brought without its bottle. */
export function takenOf(input: {
  readonly lots: readonly KeptLot[];
  readonly rennet: Setup['rennet'] | null;
  readonly now: number;
  readonly say: Say;
  readonly write: Writer;
}): readonly Taken[] {
  const { lots, rennet, say } = input;
  const fromLots = lots.map((kept) => ({
    id: kept.lot.lotId,
    title: say('plan:assumed.lot', { name: kept.lot.name }),
    lines: linesOf({ ...input, kept }),
  }));
  const hasBottle = lots.some(({ lot }) => lot.kind === 'rennet');
  const span = rennet?.testedSpanImcuPerMl;
  const strength = rennet?.strengthImcuPerMl;
  if (hasBottle || span === undefined || strength === undefined) return fromLots;
  const { middle, between } = strengthWords({ strength: { p5: span.low, p50: strength, p95: span.high }, say, write: input.write }); // prettier-ignore
  const lines = [say('plan:assumed.tested', { strength: middle, between }), say('plan:assumed.cupTest')];
  return [...fromLots, { id: 'cup-test', title: say('plan:assumed.cup'), lines }];
}

function linesOf(input: {
  readonly kept: KeptLot;
  readonly now: number;
  readonly say: Say;
  readonly write: Writer;
}): readonly string[] {
  const { kept, say } = input;
  if (kept.lot.kind === 'rennet' && strengthTest(kept.lot) !== null) {
    return [...testLines(input), say('plan:assumed.cupTest')];
  }
  return lotLines({ ...input, instantOf: (day) => wallInstant({ day, time: '12:00' }) });
}
