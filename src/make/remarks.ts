/** What this milk and kit do to the make: refusals with what to do instead, and cautions to read before the day. */
import type { Problem } from '../numbers/validity.ts';
import { wantsCalcium } from './fill.ts';
import type { Make } from './make.ts';
import type { Amount, Remark } from './plan.ts';
import { QUANTITIES } from './quantity.ts';
import type { Setup } from './setup.ts';

type Deviation = Make['milk']['deviations'][number];

export const FULL_POT = 0.93; // Vatside's own choice: fuller than this, stirring spills
const SMALL_SHARE = 0.2; // Vatside's own choice: below a fifth of a packet, powder divided by eye is guesswork

interface Case {
  readonly make: Make;
  readonly setup: Setup;
}

/** True where the milk deviates from the make in the way a deviation names. */
function applies(when: Deviation['when'], { make, setup }: Case): boolean {
  const { milk } = setup;
  switch (when) {
    case 'raw':
    case 'high-heat':
    case 'uht':
      return milk.treatment === when;
    case 'homogenised':
      return milk.homogenised;
    case 'low-fat':
      return milk.fatPercent < make.milk.fatPercent.low;
    case 'goat':
    case 'sheep':
    case 'buffalo':
      return milk.species === when;
    default:
      return false;
  }
}

const fieldOf = (when: Deviation['when']): string =>
  when === 'homogenised'
    ? 'milk.homogenised'
    : when === 'low-fat'
      ? 'milk.fatPercent'
      : when === 'raw' || when === 'high-heat' || when === 'uht'
        ? 'milk.treatment'
        : 'milk.species';

/** Why this milk cannot become this cheese, and what it can become; empty where it can. */
export function milkRefusals(input: Case): Problem[] {
  return input.make.milk.deviations
    .filter((deviation) => deviation.effect === 'refuse' && applies(deviation.when, input))
    .map((deviation) => ({
      code: 'contradiction',
      field: fieldOf(deviation.when),
      value: deviation.when,
      expected: `${input.make.milk.treatments.join(' or ')} milk for ${input.make.name}`,
      remedy: `${deviation.because} ${deviation.instead}`,
      source: sourceText(input.make, deviation.source),
    }));
}

/** Every caution that this milk and kit call for, at most one a cause. */
export function remarksOf(input: Case & { readonly amounts: readonly Amount[] }): Remark[] {
  const { make, setup, amounts } = input;
  const remarks: Remark[] = make.milk.deviations
    .filter((deviation) => deviation.effect === 'caution' && applies(deviation.when, input))
    .map((deviation) => ({
      code: `milk-${deviation.when}`,
      because: deviation.because,
      instead: deviation.instead,
      source: sourceText(make, deviation.source),
    }));
  const { milk, pot, culture } = setup;
  const { plausible } = QUANTITIES.milkPH;
  if (milk.pH !== undefined && (milk.pH < plausible.low || milk.pH > plausible.high)) {
    remarks.push({
      code: 'milk-ph-unusual',
      because: `Fresh milk reads ${plausible.low} to ${plausible.high}.`,
      instead:
        'Check the meter in a buffer; milk that has soured already sets fast and cannot be ripened by this plan.',
      source: 'common practice (no source)',
    });
  }
  if (wantsCalcium({ make, treatment: milk.treatment }) && !setup.calcium.has) {
    remarks.push({
      code: 'calcium-missing',
      because: 'Heat-treated milk sets later and softer without added calcium.',
      instead: 'Give it longer to a clean break, and cut gently.',
      source: 'common practice (no source)',
    });
  }
  if (milk.volumeL > FULL_POT * pot.volumeL) {
    remarks.push({
      code: 'pot-full',
      because: 'A pot this full spills when it is stirred and cannot be lifted without slopping.',
      instead: 'Leave some milk out, or take a larger pot.',
      source: 'common practice (no source)',
    });
  }
  const packets = amounts.find((amount) => amount.id === 'culture' && amount.unit === 'packets')?.value;
  if (packets !== undefined && (packets < SMALL_SHARE || culture.measuredBy === 'spoon')) {
    remarks.push({
      code: 'weigh-the-packet',
      because: 'A tiny spoon of culture is about 30 % off, and that moves the stretch by a quarter of an hour or more.',
      instead: 'Weigh the whole packet, tip it on paper and quarter it; keep the rest dry and frozen.',
      source: 'common practice (no source)',
    });
  }
  return remarks;
}

function sourceText(make: Make, source: Deviation['source']): string {
  if (source === undefined || source === 'common practice') return 'common practice (no source)';
  return make.sources[source] ?? 'common practice (no source)';
}
