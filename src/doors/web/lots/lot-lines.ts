/** A packet or bottle in a few short lines, as it stands on the list. */
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { bottleKnown, strengthWords } from './bottle-words.ts';
import { bottleOf } from './bottles.ts';
import type { KeptLot } from './kept-lots.ts';

/** What it is and how strong, when it came and was opened, and how often it was used. */
export function lotLines(input: {
  readonly kept: KeptLot;
  readonly now: number;
  readonly instantOf: (day: string) => number | null;
  readonly say: Say;
  readonly write: Writer;
}): readonly string[] {
  const { kept, instantOf, say, write } = input;
  const { lot, uses } = kept;
  const kind = lot.kind ?? 'rennet';
  const day = (key: string, on: string | null): string[] => {
    const at = on === null ? null : instantOf(on);
    return at === null ? [] : [say(`lots:line.${key}`, { day: write.day(at) })];
  };
  const what = isPlanned(kind) ? say(`lots:line.${kind}`, { form: say(`lots:forms.${lot.form ?? 'liquid'}`) }) : say(`stores:kinds.${kind}`); // prettier-ignore
  return [
    ...(kind === 'rennet' ? testLines(input) : []),
    sentence([what, ...labelOf(input)]),
    sentence([...day('came', lot.receivedOn), ...day('opened', lot.openedOn)]),
    uses === 0 ? '' : sentence([say('lots:line.uses', { count: uses })]),
  ].filter((line) => line !== '');
}

/** The kinds that a plan takes from the list; the others are only kept count of. */
export const isPlanned = (kind: string): kind is 'rennet' | 'culture' | 'calcium' =>
  kind === 'rennet' || kind === 'culture' || kind === 'calcium';

/** The cup test's strength with its span; nothing where no test tells it. */
export function testLines(input: {
  readonly kept: KeptLot;
  readonly now: number;
  readonly say: Say;
  readonly write: Writer;
}): string[] {
  const { kept, now, say, write } = input;
  const bottle = bottleOf({ lot: kept.lot, now });
  const known = sentence([bottleKnown({ bottle, say, write })]);
  if (bottle.test === null) return bottle.isTestedInVain ? [known] : [];
  const { between } = strengthWords({ strength: bottle.test.strengthImcuPerMl, say, write });
  return [known, sentence([say('lots:line.span', { between })])];
}

function labelOf({ kept, say, write }: Parameters<typeof lotLines>[0]): string[] {
  const { lot } = kept;
  if (lot.kind === 'culture') {
    return [
      lot.treatsL === null ? say('lots:line.unread') : say('lots:line.treats', { litres: write.litres(lot.treatsL).text }), // prettier-ignore
      ...(lot.massG === null ? [] : [say('lots:line.weighs', { mass: write.grams(lot.massG).text })]),
    ];
  }
  if (lot.strength === null)
    return lot.kind === 'rennet' || lot.kind === 'calcium' ? [say('lots:line.unlabelled')] : [];
  const { value, unit } = lot.strength;
  return [say('lots:line.labelled', { strength: `${write.number(value, Number.isInteger(value) ? 0 : 1)}\u00A0${unit}` })]; // prettier-ignore
}

/** Parts joined to one sentence, its first letter large. */
function sentence(parts: readonly string[]): string {
  const text = parts.join(', ');
  return text === '' ? '' : `${text.charAt(0).toLocaleUpperCase()}${text.slice(1)}.`;
}
