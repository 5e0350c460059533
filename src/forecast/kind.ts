/** What a plan's verbs and doses say of the kind of cheese that it makes: for the cautions, and whoever words it. */
import type { Plan, PlannedStep } from '../make/plan.ts';
import type { Situation } from '../science/cautions.ts';

const RENNET_CURD_FROM_IMCU_PER_L = 15; // less only helps an acid gel: a third of a usual dose, our own choice
const ROOM_C = { low: 15, high: 28 } as const; // where milk is left to set on the table: common practice (no source)
const LONG_MIN = 360; // our own choice: a wait of six hours or more is for the acid
const COOKED_HOT_C = 48; // where thermophiles stand still until it cools: our own choice
const DAY_MIN = 1440;

/** Days that the plan lets the cheese lie before it is eaten. */
export function plannedAgeDays({ steps }: Pick<Plan, 'steps'>): number {
  return steps.reduce((days, step) => days + lyingDays(step), 0);
}

const LIES: ReadonlySet<string> = new Set(['age', 'dry', 'keepInLiquid', 'store']);

function lyingDays(step: PlannedStep): number {
  if (!LIES.has(step.verb)) return 0;
  return step.until.of.reduce((most, condition) => {
    if (condition.kind === 'days') return Math.max(most, condition.days.value);
    return condition.kind === 'time' ? Math.max(most, condition.minutes.value / DAY_MIN) : most;
  }, 0);
}

/** The facts of the kind, as the cautions ask for them. */
export function kindOf(
  plan: Pick<Plan, 'make' | 'steps'>,
): Pick<
  Situation,
  | 'needsRennetCurd'
  | 'isStarterFree'
  | 'plannedAgeDays'
  | 'isHandWorked'
  | 'heatedC'
  | 'isBoiledDown'
  | 'isHeatCurdled'
  | 'isRoomSet'
  | 'isSlowByKind'
  | 'isSurfaceRipened'
  | 'isOpenRind'
  | 'acidKind'
> {
  const { make, steps } = plan;
  const { doses, properties } = make;
  const has = (verb: PlannedStep['verb']): boolean => steps.some((step) => step.verb === verb);
  const warmths = steps.flatMap(({ verb, set }) => {
    if (verb === 'boilDown') return [100];
    const { toC, atC } = set;
    return verb === 'warm' || verb === 'heatWithAcid' || verb === 'hold' ? [toC, atC].filter((each) => typeof each === 'number') : []; // prettier-ignore
  });
  const isRoomSet = doses.culture !== undefined && steps.some(setsInRoom);
  const isCookedHot = steps.some(({ verb, set }) => verb === 'cook' && typeof set.toC === 'number' && set.toC >= COOKED_HOT_C); // prettier-ignore
  return {
    needsRennetCurd: (doses.rennet?.imcuPerL.aim ?? 0) >= RENNET_CURD_FROM_IMCU_PER_L,
    isStarterFree: properties.starterFree || doses.culture === undefined,
    plannedAgeDays: plannedAgeDays(plan),
    isHandWorked: has('stretch'),
    heatedC: warmths.length === 0 ? null : Math.max(...warmths),
    isBoiledDown: has('boilDown'),
    isHeatCurdled: has('heatWithAcid'),
    isRoomSet,
    isSlowByKind: isRoomSet || isCookedHot,
    isSurfaceRipened: properties.surfaceRipened,
    isOpenRind: steps.some(({ verb, set }) => verb === 'age' && set.rind !== 'waxed' && set.rind !== 'vacuum'),
    acidKind: doses.acid?.kind ?? null,
  };
}

/** Milk that is left to set, for hours, about as warm as a room. */
function setsInRoom({ verb, set, until }: PlannedStep): boolean {
  const isInVat = verb === 'ripen' || verb === 'set' || verb === 'hold' || (verb === 'restToAcid' && set.stirring === 'still'); // prettier-ignore
  if (!isInVat) return false;
  const isRoomWarm = typeof set.atC === 'number' && set.atC >= ROOM_C.low && set.atC <= ROOM_C.high;
  return isRoomWarm && until.of.some((condition) => condition.kind === 'time' && condition.minutes.value >= LONG_MIN);
}
