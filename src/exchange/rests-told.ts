import type { KitchenChecks } from './kitchen-checks.ts';
import type { Say } from './words.ts';

/**
 * What the bands of a forecast rest on, in sentences: the wide ones first, and last how often this kitchen's came true.
 * @param checks null where no log is at hand
 */
export function restsTold(input: {
  readonly restsOn: readonly string[];
  readonly checks: KitchenChecks | null;
  readonly say: Say;
}): string[] {
  const { restsOn, checks, say } = input;
  const { makes = 0, bands = 0, inside = 0 } = checks ?? {};
  return [
    ...restsOn.map((code) => say(`plan:rests.${code}`)),
    ...(checks === null ? [] : [makes === 0 ? say('plan:rests.unchecked') : say('plan:rests.checked', { count: makes, inside, bands })]), // prettier-ignore
  ];
}
