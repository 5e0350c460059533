import type { Aim } from '../make/make.ts';
import type { Plan } from '../make/plan.ts';
import { figureOf, firmnessAt, type Seen } from './explain-seen.ts';

/**
 * What a maker says of a make that did not come out as meant, and when they say it: each fault is a number that is 0 where half
 * of the makers would notice and about 1 for each step of "clearly". All thresholds and widths are our own choice unless a line
 * names a source; aims are the make's own.
 */
export const FAULTS = [
  'never-set', 'soft-set', 'shattered', 'tears', 'runs', 'too-dry', 'too-wet', 'tough', 'too-salty', 'not-salty', 'sour',
  'bitter', 'low-yield',
] as const; // prettier-ignore
export type Fault = (typeof FAULTS)[number];

/** What was said of the outcome; null where nobody said anything of it. */
export type FaultsSaid = readonly { readonly fault: Fault; readonly isThere: boolean }[];

/** Share of clear faults that are mentioned in a note, and of makes where one is mentioned that is not there. Our own choice. */
export const MENTION = { clear: 0.85, false: 0.01 } as const;

/** Faults that this make can have, by its steps and aims. */
export function faultsOf(plan: Plan): readonly Fault[] {
  const verbs = new Set(plan.steps.map((step) => step.verb));
  const needs: Readonly<Partial<Record<Fault, boolean>>> = {
    'never-set': verbs.has('set'),
    'soft-set': verbs.has('set'),
    shattered: verbs.has('cut'),
    tears: verbs.has('stretch'),
    runs: verbs.has('stretch'),
    'too-salty': aimOf(plan, 'saltPercent') !== undefined,
    'not-salty': aimOf(plan, 'saltPercent') !== undefined,
    'too-dry': aimOf(plan, 'moisturePercent') !== undefined,
    'too-wet': aimOf(plan, 'moisturePercent') !== undefined,
    'low-yield': aimOf(plan, 'cheesePerMilkKgPerL') !== undefined,
  };
  return FAULTS.filter((fault) => needs[fault] ?? true);
}

const aimOf = (plan: Plan, quantity: Aim['quantity']): Aim | undefined =>
  plan.make.aims.find((aim) => aim.quantity === quantity);

/** How far past the make's own aim half of the makers say so, and how sharply: moisture in points, the others of the aim. */
const MOISTURE = { past: 3, sd: 2 }; // a point or two of moisture is not tasted
const SALT = { past: 0.15, sd: 0.12 };
const YIELD = { past: 0.05, sd: 0.05 };
const NEVER_SD_MIN = 6; // about the end of the wait
const SOFT_PA = { at: 20, sd: 6 }; // below the 30-40 Pa of normal cutting ("Viscoelastic properties of coagulating milk", abstract seen)
const SHATTERS_PA = { at: 22, sd: 6 };
const TEARS_PH = { at: 5.4, sd: 0.07 }; // "tears short" of the stretch grades
const TEARS_C = { at: 53, sd: 2 }; // curd stretches from 50 to 60 °C: university extension practice (seen at second hand)
const TEARS_SOFTENING = { at: 0.55, sd: 0.12 }; // high-heat milk may never stretch well: trade notes, row 14
const RUNS_PH = { at: 4.97, sd: 0.06 }; // "runs" of the stretch grades
const RUNS_C = { at: 64.5, sd: 1.5 }; // warned of above 62 °C, `STRETCH_WINDOW`
const TOUGH_C = { at: 62.5, sd: 1.5 };
const SOUR_PH = { at: 5, sd: 0.08 };
const BITTER_DOSE_LN = { at: 0.7, sd: 0.25 }; // twice the rennet
/** Fresh milk and salt keep most cheese from any bitterness; this much is there anyway, in steps of "clearly". */
const NEVER_CLEARLY = -3;

/** How clearly a fault is there in one member's make; NaN where its make did not get so far. */
export function faultIn(member: Seen, fault: Fault): number {
  const { inputs, variant } = member.supposed;
  const { plan } = variant.course;
  const pH = (): number => figureOf(member, 'pHAtStretch');
  switch (fault) {
    case 'never-set': {
      const set = variant.course.steps.find((step) => step.verb === 'set');
      const leftMin = member.run.leftMin[set?.index ?? 0] ?? Number.NaN;
      return (member.rennetMin + 1.2 * member.flecksMin - leftMin) / NEVER_SD_MIN;
    }
    case 'soft-set':
      return (SOFT_PA.at - atCutting(member)) / SOFT_PA.sd;
    case 'shattered':
      return (SHATTERS_PA.at - atCutting(member)) / SHATTERS_PA.sd;
    case 'tears':
      return Math.max(
        (pH() - TEARS_PH.at) / TEARS_PH.sd,
        (TEARS_C.at - stretchedC(member)) / TEARS_C.sd,
        (TEARS_SOFTENING.at - member.supposed.softening) / TEARS_SOFTENING.sd,
      );
    case 'runs':
      return Math.max((RUNS_PH.at - pH()) / RUNS_PH.sd, (stretchedC(member) - RUNS_C.at) / RUNS_C.sd);
    case 'tough':
      return Math.max((stretchedC(member) - TOUGH_C.at) / TOUGH_C.sd, faultIn(member, 'too-dry') - 1);
    case 'sour':
      return (SOUR_PH.at - pH()) / SOUR_PH.sd;
    case 'bitter': {
      const dose =
        inputs.clotting.doseImcuPerL / (plan.make.doses.rennet?.imcuPerL.aim ?? inputs.clotting.doseImcuPerL);
      return Math.max((Math.log(Math.max(dose, 0.01)) - BITTER_DOSE_LN.at) / BITTER_DOSE_LN.sd, NEVER_CLEARLY);
    }
    case 'too-dry':
      return pastAim({ member, quantity: 'moisturePercent', side: 'low', by: () => MOISTURE });
    case 'too-wet':
      return pastAim({ member, quantity: 'moisturePercent', side: 'high', by: () => MOISTURE });
    case 'too-salty':
      return pastAim({ member, quantity: 'saltPercent', side: 'high', by: (aim) => times(SALT, aim) });
    case 'not-salty':
      return pastAim({ member, quantity: 'saltPercent', side: 'low', by: (aim) => times(SALT, aim) });
    case 'low-yield':
      return pastAim({ member, quantity: 'cheesePerMilkKgPerL', side: 'low', by: (aim) => times(YIELD, aim) });
  }
}

interface Past {
  readonly past: number;
  readonly sd: number;
}
const times = ({ past, sd }: Past, aim: number): Past => ({ past: past * aim, sd: sd * aim });

/** How clearly a figure of the cheese lies past the make's aim. */
function pastAim(input: {
  member: Seen;
  quantity: 'moisturePercent' | 'saltPercent' | 'cheesePerMilkKgPerL';
  side: 'low' | 'high';
  by: (aim: number) => Past;
}): number {
  const aim = aimOf(input.member.supposed.variant.course.plan, input.quantity);
  if (aim === undefined) return Number.NaN;
  const { past, sd } = input.by(aim.aim);
  const value = figureOf(input.member, input.quantity);
  return (input.side === 'low' ? aim.low - value - past : value - aim.high - past) / sd;
}

/** Firmness as the knife went in [Pa]. */
function atCutting(member: Seen): number {
  const cut = member.supposed.variant.course.steps.find((step) => step.verb === 'cut');
  return firmnessAt(member, member.run.startMin[cut?.index ?? 0] ?? Number.NaN);
}

const DRAINED_CURD_C = 38; // what the warmth of the curd itself brings along: common practice (no source)

/** What the curd comes to in the hot water [°C]: its target, moved by as much of the water's error as the water weighs. */
export function stretchedC(member: Seen): number {
  const set = member.supposed.variant.course.steps.find((step) => step.verb === 'stretch')?.plan.set;
  const { curdTargetC, waterC } = set ?? {};
  if (typeof curdTargetC !== 'number' || typeof waterC !== 'number') return Number.NaN;
  const share = (curdTargetC - DRAINED_CURD_C) / (waterC - DRAINED_CURD_C);
  const shownHigh = member.supposed.inputs.thermometerBiasC;
  return curdTargetC + share * (member.supposed.stretchWaterOffsetC - shownHigh);
}
