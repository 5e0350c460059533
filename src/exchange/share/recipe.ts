/**
 * A planned make as schema.org Recipe, JSON-LD: what recipe readers take in. Names and types of its properties after the
 * vocabulary (schema.org, Recipe, HowTo, HowToStep); durations after ISO 8601. It carries what a recipe can; the make file
 * carries the rest.
 */
import type { Amount } from '../../make/plan.ts';
import { amountText, endText, litres, sentence, settingsOf, type Told } from '../paper/step-words.ts';
import { notForWhom } from '../paper/eater.ts';
import type { Sheet } from '../text/telling.ts';
import { isoDuration } from './iso-duration.ts';

/** Made ready and used at the pot, but no part of the cheese. */
const SUPPLIES: ReadonlySet<string> = new Set(['ice', 'stretch-water', 'wash-water', 'brine', 'rennet-water']);
/** Neither bought nor eaten: it comes out of the pot. */
const COMES_OUT: ReadonlySet<string> = new Set(['whey-drawn']);

/** Who wrote it and under which terms; left out where nobody says. */
export interface Authorship {
  readonly author?: string;
  readonly license?: string;
}

/**
 * @param input.sheet the make planned and foreseen
 * @param input.language of its words
 * @returns an object for JSON
 */
export function recipeOf(input: { readonly sheet: Sheet; readonly told: Told; readonly language: string } & Authorship) {
  const { sheet, told, language, author, license } = input;
  const { plan, forecast } = sheet;
  const { make } = plan;
  const { say } = told;
  const end = forecast.steps.at(-1)?.endMin.p50;
  const handsMin = plan.steps.reduce((sum, { handsMin: { start, during, end: after } }) => sum + start + during + after, 0);
  const cheese = forecast.outcome.cheeseKg;
  const pieces = forecast.outcome.pieces.p50;
  const weight = Number.isFinite(cheese.p50) ? say('paper:recipe.yield', { amount: told.both.mass(cheese.p50).text }) : null;
  return {
    '@context': 'https://schema.org' as const,
    '@type': 'Recipe' as const,
    name: make.name,
    description: make.about,
    inLanguage: language,
    recipeCategory: say('paper:recipe.category'),
    keywords: [make.name, ...make.aliases].join(', '),
    recipeYield: [...(Number.isFinite(pieces) && pieces >= 1 ? [String(Math.round(pieces))] : []), ...(weight === null ? [] : [weight])],
    totalTime: isoDuration(end === undefined || !Number.isFinite(end) ? handsMin : end),
    performTime: isoDuration(handsMin),
    recipeIngredient: plan.amounts.filter(({ id }) => !SUPPLIES.has(id) && !COMES_OUT.has(id)).map((amount) => ingredient(amount, input)),
    supply: plan.amounts.filter(({ id }) => SUPPLIES.has(id)).map((amount) => ({ '@type': 'HowToSupply' as const, name: ingredient(amount, input) })),
    tool: [...new Set(plan.steps.flatMap(({ kit }) => kit))].map((kit) => ({ '@type': 'HowToTool' as const, name: say(`paper:kit.${kit}`, { count: 1 }) })),
    recipeInstructions: plan.steps.map((step, index) => ({ '@type': 'HowToStep' as const, position: index + 1, name: step.name, text: stepText(step, input) })),
    citation: [...make.sources],
    version: String(make.version),
    identifier: make.id,
    ...(author === undefined || author === '' ? {} : { author: { '@type': 'Person' as const, name: author } }),
    ...(license === undefined || license === '' ? {} : { license }),
    disambiguatingDescription: notForWhom({ make, treatment: plan.setup.milk.treatment, told }).join(' '),
  };
} // prettier-ignore

/** The recipe as text, to be kept as a file or put into a page as it is: no `<` in it that could end the element around it. */
export const recipeText = (recipe: ReturnType<typeof recipeOf>): string =>
  `${JSON.stringify(recipe, null, 2).replaceAll('<', '\\u003c').replaceAll('\u2028', '\\u2028').replaceAll('\u2029', '\\u2029')}\n`;

type Asked = Parameters<typeof recipeOf>[0];

function ingredient(amount: Amount, { sheet, told }: Asked): string {
  const { say } = told;
  const { plan, forecast } = sheet;
  if (amount.id === 'milk') {
    const { species, treatment, volumeL } = plan.setup.milk;
    return say('paper:milk', { amount: litres(told, volumeL), species: say(`plan:options.milk.species.${species}`), treatment: say(`plan:options.milk.treatment.${treatment}`) }); // prettier-ignore
  }
  const kind = plan.make.doses.culture?.kind;
  const name = amount.id === 'culture' && kind !== undefined ? say(`plan:cultureKinds.${kind}`) : say(`plan:amounts.${amount.id}`); // prettier-ignore
  return say('paper:recipe.ingredient', { amount: amountText({ amount, forecast, told }), name });
}

function stepText(step: Sheet['plan']['steps'][number], { told, sheet }: Asked): string {
  const figures = settingsOf(step, told).map(({ name, value }) => `${name}: ${value}`);
  return [
    sentence(told, step.how),
    figures.length === 0 ? '' : `${figures.join('; ')}.`,
    endText({ step, plan: sheet.plan, isMetered: true, told }),
    sentence(told, step.why),
  ].filter((part) => part !== '').join(' '); // prettier-ignore
}
