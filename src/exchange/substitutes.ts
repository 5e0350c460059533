/** What can stand in for an ingredient of a plan, with its dose worked out anew. */
import { UNKNOWN_RENNET } from '../make/fill.ts';
import { spoonsFor, type SpoonMeasure } from '../make/kitchen-measures.ts';
import type { AcidKind } from '../make/make.ts';
import { sourceWords } from '../make/make-facts.ts';
import type { Plan } from '../make/plan.ts';
import { acidForAcid, type DirectAcid } from '../science/buffer-acid.ts';

export type SubstituteId =
  | 'culture-bulk' | 'culture-packet' | 'culture-buttermilk' | 'culture-yoghurt'
  | 'rennet-liquid' | 'rennet-double' | 'rennet-powder' | 'rennet-tablet'
  | 'calcium-flakes' | 'calcium-solution'
  | 'acid-citric' | 'acid-vinegar' | 'acid-lemon' | 'acid-lactic'; // prettier-ignore

/** Why it is not the same thing. */
export type SubstituteDoubt =
  'strength-unread' | 'unknown-cells' | 'label-percent' | 'fruit-differs' | 'sours-milk' | 'strong-acid';

export interface Substitute {
  readonly id: SubstituteId;
  /** The amount of the plan that it stands in for. */
  readonly insteadOf: 'culture' | 'rennet' | 'calcium' | 'acid';
  readonly stepId: string;
  readonly unit: 'g' | 'mL' | 'packets' | 'tablets';
  readonly value: number;
  /** The likely range of the dose: labels and fruit differ. Left out where there is none. */
  readonly low?: number;
  readonly high?: number;
  readonly spoon?: SpoonMeasure;
  readonly doubts: readonly SubstituteDoubt[];
  readonly source: string;
}

const PRACTICE = 'common practice (no source)';
const MOTHER_PERCENT = { low: 1.5, aim: 2, high: 3 } as const; // common practice (no source): fresh cultured buttermilk or live yoghurt, by volume
const DOUBLE = 2; // common practice (no source): "double" is twice the same maker's single, and nothing across makers
const DIHYDRATE_PER_ANHYDROUS = 147.01 / 110.98; // molar masses, standard atomic weights
const FLAKE_PERCENT = { low: 94, high: 100 } as const; // common practice (no source): flakes sold as dihydrate, a little damp
const SOLUTION_PERCENT = 33; // common practice (no source)
const SOLUTION_KG_PER_L = 1.32; // of 33 %, from memory
/** Pure acid in what is poured, percent by mass. Vinegar by its label; lemon juice 5 to 6 % of citric acid, common practice (no source). */
const STRENGTH: Readonly<Record<AcidKind, { readonly pure: DirectAcid; readonly low: number; readonly typical: number; readonly high: number; readonly gPerMl: number | null; readonly doubts: readonly SubstituteDoubt[] }>> = {
  citric: { pure: 'citric-monohydrate', low: 100, typical: 100, high: 100, gPerMl: null, doubts: [] },
  vinegar: { pure: 'acetic', low: 4, typical: 5, high: 6, gPerMl: 1.01, doubts: ['label-percent'] },
  lemon: { pure: 'citric', low: 4, typical: 5, high: 7, gPerMl: 1.03, doubts: ['fruit-differs'] },
  lactic: { pure: 'lactic', low: 78, typical: 80, high: 90, gPerMl: 1.19, doubts: ['label-percent', 'strong-acid'] },
}; // prettier-ignore
const ACID_PH = 5.5; // our own choice where the make aims at no pH: between quick stretched (5.6) and heat-set curd (5.4)

/**
 * Every stand-in for what this plan takes: another culture, rennet, calcium or acid, in the order of the work.
 * @param input.plan doses, litres and lots as they are
 */
export function substitutesOf(input: { readonly plan: Plan }): Substitute[] {
  const { plan } = input;
  return [...cultures(plan), ...rennets(plan), ...calciums(plan), ...acids(plan)];
}

const stepWith = (plan: Plan, ingredient: string): string | null =>
  plan.steps.find(({ set }) => set.ingredient === ingredient)?.id ?? null;

function* cultures(plan: Plan): Generator<Substitute> {
  const { setup, make } = plan;
  const dose = make.doses.culture;
  const stepId = stepWith(plan, 'culture');
  if (dose === undefined || stepId === null) return;
  const litres = setup.milk.volumeL;
  const poured = (percent: { readonly low: number; readonly aim: number; readonly high: number }) => ({ value: 10 * percent.aim * litres, low: 10 * percent.low * litres, high: 10 * percent.high * litres }); // prettier-ignore
  const base = { insteadOf: 'culture', stepId } as const;
  const isPoured = setup.culture.bulkPercent !== undefined;
  if (isPoured) {
    const packets = (setup.culture.packetFraction * litres) / setup.culture.packetTreatsL;
    yield {
      ...base,
      id: 'culture-packet',
      unit: 'packets',
      value: packets,
      doubts: ['strength-unread'],
      source: PRACTICE,
    };
  } else {
    yield { ...base, id: 'culture-bulk', unit: 'mL', ...poured(dose.bulkPercent), doubts: ['sours-milk'], source: sourceWords(make, dose.bulkPercent.source) }; // prettier-ignore
  }
  const kitchen = KITCHEN_CULTURE[dose.kind];
  if (kitchen !== null) yield { ...base, id: kitchen, unit: 'mL', ...poured(MOTHER_PERCENT), doubts: ['unknown-cells', 'sours-milk'], source: PRACTICE }; // prettier-ignore
}

/** What a shop sells alive of the same kind. */
const KITCHEN_CULTURE = {
  mesophilic: 'culture-buttermilk',
  'mesophilic-aromatic': 'culture-buttermilk',
  thermophilic: 'culture-yoghurt',
  yoghurt: 'culture-yoghurt',
  'thermophilic-helveticus': 'culture-yoghurt',
  kefir: null,
} as const;

function* rennets(plan: Plan): Generator<Substitute> {
  const { rennet, milk } = plan.setup;
  const dose = plan.make.doses.rennet;
  const stepId = stepWith(plan, 'rennet');
  if (dose === undefined || stepId === null) return;
  const base = { insteadOf: 'rennet', stepId, doubts: ['strength-unread'], source: PRACTICE } as const;
  const imcu = dose.imcuPerL.aim * milk.volumeL;
  const of = (kind: keyof typeof UNKNOWN_RENNET) => ({ value: imcu / UNKNOWN_RENNET[kind].strength, low: imcu / UNKNOWN_RENNET[kind].high, high: imcu / UNKNOWN_RENNET[kind].low }); // prettier-ignore
  if (rennet.form === 'liquid') {
    const now = plan.amounts.find(({ id }) => id === 'rennet');
    if (now !== undefined) yield { ...base, id: 'rennet-double', unit: 'mL', value: now.value / DOUBLE, ...halved(now), doubts: now.low === undefined ? [] : base.doubts }; // prettier-ignore
  } else yield { ...base, id: 'rennet-liquid', unit: 'mL', ...of('liquid') };
  if (rennet.form !== 'powder') yield { ...base, id: 'rennet-powder', unit: 'g', ...of('powder') };
  if (rennet.form !== 'tablet') yield { ...base, id: 'rennet-tablet', unit: 'tablets', ...of('tablet') };
}

const halved = (amount: { readonly low?: number; readonly high?: number }) =>
  amount.low === undefined || amount.high === undefined ? {} : { low: amount.low / DOUBLE, high: amount.high / DOUBLE };

function* calciums(plan: Plan): Generator<Substitute> {
  const stepId = stepWith(plan, 'calcium');
  const anhydrousG = plan.amounts.find(({ id }) => id === 'calcium')?.also?.find(({ unit }) => unit === 'g')?.value;
  if (stepId === null || anhydrousG === undefined) return;
  const dihydrateG = anhydrousG * DIHYDRATE_PER_ANHYDROUS;
  const spoon = spoonsFor({ massG: dihydrateG, ingredient: 'calcium-chloride-flakes', region: plan.setup.units });
  const base = { insteadOf: 'calcium', stepId, source: PRACTICE } as const;
  yield {
    ...base,
    id: 'calcium-flakes',
    unit: 'g',
    value: dihydrateG,
    low: (100 * dihydrateG) / FLAKE_PERCENT.high,
    high: (100 * dihydrateG) / FLAKE_PERCENT.low,
    ...(spoon === null ? {} : { spoon }),
    doubts: ['label-percent'],
    source: 'molar masses of the dihydrate and the anhydrous salt',
  };
  if (Math.abs(plan.setup.calcium.solutionPercent - SOLUTION_PERCENT) > 1) {
    yield { ...base, id: 'calcium-solution', unit: 'mL', value: (100 * anhydrousG) / SOLUTION_PERCENT / SOLUTION_KG_PER_L, doubts: ['label-percent'] }; // prettier-ignore
  }
}

function* acids(plan: Plan): Generator<Substitute> {
  const dose = plan.make.doses.acid;
  const step = plan.steps.find(({ set, verb }) => set.ingredient === 'acid' || verb === 'heatWithAcid');
  if (dose === undefined || step === undefined) return;
  const pH = plan.make.aims.find(({ quantity }) => quantity === 'pH')?.aim ?? ACID_PH;
  const own = STRENGTH[dose.kind];
  const ownPureG = (dose.gPerL.aim * plan.setup.milk.volumeL * own.typical) / 100;
  for (const kind of ['citric', 'vinegar', 'lemon', 'lactic'] as const) {
    if (kind === dose.kind) continue;
    const { pure, low, typical, high, gPerMl, doubts } = STRENGTH[kind];
    const pureG = ownPureG * acidForAcid({ of: own.pure, by: pure, pH });
    const poured = (percent: number): number => (100 * pureG) / percent / (gPerMl ?? 1);
    const spoon = kind === 'citric' ? spoonsFor({ massG: pureG, ingredient: 'citric-acid', region: plan.setup.units }) : null; // prettier-ignore
    yield {
      id: `acid-${kind}`,
      insteadOf: 'acid',
      stepId: step.id,
      unit: gPerMl === null ? 'g' : 'mL',
      value: poured(typical),
      ...(low === high ? {} : { low: poured(high), high: poured(low) }),
      ...(spoon === null ? {} : { spoon }),
      doubts,
      source:
        'protons given off at the pH aimed at; dissociation constants from memory, strengths common practice (no source)',
    };
  }
}
