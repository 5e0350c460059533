/** A brine as it stands now: its last reading, less what cheese took since, plus what was put back; and what to add. */
import type { BrineRecord } from '../../record/brine-record.ts';
import type { KeepingBody } from '../../record/keeping-events.ts';
import { brineDensityKgPerM3 } from '../../science/brine.ts';
import { type Brine, brineAfterBatch, newBrineDressing, saltToStrengthenKg, waterToDiluteKg } from '../../science/brine-amounts.ts'; // prettier-ignore
import { brineFindings, type BrineFinding } from '../../science/brine-care.ts';
import { saltFractionFrom } from '../../science/brine-strength.ts';
import { InputError } from '../../numbers/validity.ts';

const DAY_MS = 86_400_000;
const ROOM_C = 12; // common practice (no source): where nobody read it
const MOST_FRACTION = 0.267; // saturation at 40 °C, as the density fit has it
const TAP_ALKALINITY_MEQ_PER_L = 2; // soft to middling water: common practice (no source)
const USUAL_PH = 5.2; // pressed and stretched cheese at brining, common practice (no source)

type Strength = NonNullable<KeepingBody<'brineChecked'>['strength']>;

/** What is to be added before the next batch; 0 where nothing. */
export interface BrineTopUp {
  readonly saltKg: number;
  readonly waterL: number;
  readonly calciumSolutionMl: number;
  readonly vinegarMl: number;
}

export interface BrineState {
  readonly percent: number;
  /** False where cheese went through, or something was added, since its strength was read. */
  readonly isRead: boolean;
  readonly volumeL: number;
  readonly massKg: number;
  readonly temperatureC: number | null;
  readonly pH: number | null;
  readonly calciumGPerL: number | null;
  readonly look: KeepingBody<'brineChecked'>['look'] | null;
  readonly aimPercent: number;
  /** Since it was made, boiled or filtered. */
  readonly uses: number;
  readonly days: number;
  readonly topUp: BrineTopUp;
  readonly findings: readonly BrineFinding[];
}

/**
 * Mass fraction of a strength as it was given [kg/kg].
 * @throws InputError when it is no brine
 */
export const fractionOf = (strength: Strength, temperatureC: number | null): number =>
  saltFractionFrom({ strength: strength.value, strengthUnit: strength.unit, temperatureC: temperatureC ?? ROOM_C, ...(strength.readAtC === undefined ? {} : { readAtC: strength.readAtC }) }); // prettier-ignore

/**
 * The state of a brine now.
 * @param input.now milliseconds UTC
 * @returns null for one that was never made, or whose figures are no brine
 */
export function brineState(input: { readonly brine: BrineRecord; readonly now: number }): BrineState | null {
  const { brine, now } = input;
  const { made } = brine;
  if (made === null) return null;
  const temperatureC = lastOf(brine.checks, 'temperatureC') ?? made.temperatureC ?? null;
  const warmth = Math.min(40, Math.max(0, temperatureC ?? ROOM_C));
  const first = safeFraction(made.strength, temperatureC);
  if (first === null) return null;
  let tub: Brine = { saltFraction: first, massKg: massOf(made.volumeL, first, warmth) };
  let calciumG: number | null = made.calciumGPerL === undefined ? null : made.calciumGPerL * made.volumeL;
  let isRead = true;
  let readAt = made.at;
  for (const line of brine.lines) {
    const use = brine.uses.find(({ eventId }) => eventId === line.eventId);
    const top = brine.topped.find(({ eventId }) => eventId === line.eventId);
    const check = brine.checks.find(({ eventId }) => eventId === line.eventId);
    if (use !== undefined) {
      tub = brineAfterBatch({ brine: tub, ...use });
      isRead = false;
    }
    if (top !== undefined) {
      const { saltKg = 0, waterL = 0 } = top;
      const massKg = tub.massKg + saltKg + waterL;
      tub = { massKg, saltFraction: Math.min(MOST_FRACTION, (tub.saltFraction * tub.massKg + saltKg) / massKg) };
      if (top.calciumG !== undefined) calciumG = (calciumG ?? 0) + top.calciumG;
      isRead = false;
    }
    if (check !== undefined) {
      const read = check.strength === undefined ? null : safeFraction(check.strength, temperatureC);
      if (read !== null) {
        tub = { ...tub, saltFraction: read };
        isRead = true;
        readAt = check.at;
      }
      if (check.volumeL !== undefined) tub = { ...tub, massKg: massOf(check.volumeL, tub.saltFraction, warmth) };
    }
    if (line.kind === 'brineCared' && line.body['how'] === 'boiled') calciumG = null; // boiling drops it as phosphate: trade practice
  }
  const percent = 100 * tub.saltFraction;
  const volumeL = (1000 * tub.massKg) / brineDensityKgPerM3({ saltFraction: tub.saltFraction, temperatureC: warmth });
  const pH = lastOf(brine.checks, 'pH') ?? made.pH ?? null;
  const calciumGPerL = calciumG === null ? null : calciumG / volumeL;
  const look = lastOf(brine.checks, 'look') ?? null;
  const days = Math.max(0, (now - (brine.cleanAt ?? made.at)) / DAY_MS);
  const { aimPercent } = made;
  const findings = brineFindings({ percent, aimPercent, temperatureC, pH, calciumGPerL, look, uses: brine.usesSinceClean, days, daysUnread: (now - readAt) / DAY_MS }); // prettier-ignore
  const state = { percent, isRead, volumeL, massKg: tub.massKg, temperatureC, pH, calciumGPerL, look, aimPercent, uses: brine.usesSinceClean, days, findings }; // prettier-ignore
  return { ...state, topUp: topUpOf({ tub, aim: aimPercent / 100, volumeL, calciumGPerL, pH }) };
}

const massOf = (volumeL: number, saltFraction: number, temperatureC: number): number =>
  (volumeL * brineDensityKgPerM3({ saltFraction, temperatureC })) / 1000;

function safeFraction(strength: Strength, temperatureC: number | null): number | null {
  try {
    return fractionOf(strength, temperatureC);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

function lastOf<K extends 'temperatureC' | 'pH' | 'look'>(checks: BrineRecord['checks'], key: K): BrineRecord['checks'][number][K] | undefined {
  return checks.filter((check) => check[key] !== undefined).at(-1)?.[key];
} // prettier-ignore

/** Salt or water back to its aim, calcium back to its usual dose, and vinegar where it is not sour enough. */
function topUpOf(input: {
  readonly tub: Brine;
  readonly aim: number;
  readonly volumeL: number;
  readonly calciumGPerL: number | null;
  readonly pH: number | null;
}): BrineTopUp {
  const { tub, aim, volumeL, calciumGPerL, pH } = input;
  const isWeak = tub.saltFraction < aim;
  const dressing = newBrineDressing({ volumeL, targetPH: USUAL_PH, alkalinityMeqPerL: TAP_ALKALINITY_MEQ_PER_L });
  const short = calciumGPerL === null ? 0 : Math.max(0, 1 - calciumGPerL / CALCIUM_G_PER_L);
  return {
    saltKg: isWeak ? saltToStrengthenKg({ brine: tub, saltFraction: aim }) : 0,
    waterL: isWeak ? 0 : waterToDiluteKg({ brine: tub, saltFraction: aim }),
    calciumSolutionMl: dressing.calciumSolutionML * short,
    vinegarMl: pH !== null && pH > USUAL_PH + 0.5 ? dressing.vinegarML : 0,
  };
}
const CALCIUM_G_PER_L = 1.5; // common practice (no source), as a new brine has it

/** Salt that a cheese takes and water that it gives, from its weight and the salt it is to have [kg]. */
export const takenByCheese = (input: {
  readonly cheeseKg: number;
  readonly saltPercent: number;
  readonly waterPerSalt: number;
}): { readonly saltTakenKg: number; readonly waterGivenKg: number } => {
  const saltTakenKg = (input.cheeseKg * input.saltPercent) / 100;
  return { saltTakenKg, waterGivenKg: input.waterPerSalt * saltTakenKg };
};
