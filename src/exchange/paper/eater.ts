/** What whoever eats the cheese must be told: who should not, how long it may stand out of the cold, and what is in it. */
import type { Make, Treatment } from '../../make/make.ts';
import type { PaperElement } from './element.ts';
import { box, list, para } from './parts.ts';
import type { Told } from './step-words.ts';

/** From this much water on a cheese counts as moist: Food Code exemption of semisoft cheese under 50 % (safety notes, section 5). */
const MOIST_PERCENT = 50;
/** Cheese of raw milk is called young before this age: 21 CFR 133.182 and others. */
const RAW_DAYS = 60;

/** A cheese that carries germs along if there are any: moist, or ripened from its skin. */
export const isSoft = (make: Make): boolean =>
  make.properties.surfaceRipened ||
  make.aims.some(({ quantity, aim }) => quantity === 'moisturePercent' && aim >= MOIST_PERCENT);

/** Sentences that say who should not eat it. None of them says that anybody else is safe. */
export function notForWhom(input: { readonly make: Make; readonly treatment: Treatment; readonly told: Told }): readonly string[] {
  const { make, treatment, told } = input;
  const { say } = told;
  return [
    say('paper:eater.allergy'),
    ...(treatment === 'raw' ? [say('findings:raw-risk-groups')] : isSoft(make) ? [say('paper:eater.soft')] : [say('paper:eater.firm')]),
    ...(treatment === 'raw' && make.shelfLife.days.value < RAW_DAYS ? [say('findings:raw-fresh')] : []),
    say('paper:eater.local'),
  ];
} // prettier-ignore

/** Who should not eat it, as a framed list. */
export const notForBox = (input: Parameters<typeof notForWhom>[0]): PaperElement =>
  box(input.told.say('paper:eater.title'), list(notForWhom(input)));

/**
 * How long it may stand out of the cold: every time added up, under two hours it goes back, from two to four it is eaten,
 * from four on it is thrown away (Food Standards Australia New Zealand, 2-hour/4-hour rule).
 */
export function coldBox(told: Told, ...between: readonly PaperElement[]): PaperElement {
  const { say } = told;
  return box(
    say('paper:cold.title'),
    ...between,
    list([say('paper:cold.two'), say('paper:cold.four'), say('paper:cold.more')]),
    para(say('paper:cold.source'), 'paper-small'),
  );
}
