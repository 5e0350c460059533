/** A planned day told by the clock: what to do when, at which pot, with what; for the screen, the command line and paper. */
import type { DayPlan, PlacedPreparation } from '../forecast/day/day.ts';
import { LAY_OUT_MIN } from '../forecast/day/rules.ts';
import type { PlannedStep } from '../make/plan.ts';

/** A pot of the day, as it is told. */
export interface DayPotTold {
  readonly id: string;
  readonly name: string;
  readonly makeId: string;
  readonly steps: readonly PlannedStep[];
}

/** One line of the day: the same thing at the same minute for several pots is one line. */
export interface DayLine {
  readonly key: string;
  readonly kind: 'step' | 'prepare' | 'evening' | 'chill' | 'rewarm' | 'done';
  /** Minutes on the day's clock; of the evening before no time is meant. */
  readonly atMin: number;
  readonly potIds: readonly string[];
  readonly stepId: string;
  /** The step, or what is made ready, one a piece. */
  readonly what: readonly string[];
  /** Minutes of work at this moment; 0 for what goes on by itself. */
  readonly handsMin: number;
  /** Kit that it takes from here: which burner, which kettle, which press; 1 for the first. */
  readonly kit: readonly { readonly resource: string; readonly unit: number }[];
  /** 9 times in 10 a step is over between these. */
  readonly endsMin: { readonly early: number; readonly late: number } | null;
  /** Minutes that the pot waits here for hands or kit. */
  readonly waitsMin: number;
}

/** What is told of by number: of hands and bowls nobody asks which. */
const NUMBERED: ReadonlySet<string> = new Set(['burner', 'kettle', 'press', 'brine-tub', 'bath']);

/** Every line of the day in the order of the clock; what is for the evening before comes first. */
export function dayLines(input: { readonly plan: DayPlan; readonly pots: readonly DayPotTold[] }): DayLine[] {
  const { plan, pots } = input;
  const lines = pots.flatMap((pot) => [...stepLines(plan, pot), ...coldLines(plan, pot), ...prepareLines(plan, pot)]);
  const merged = new Map<string, DayLine>();
  for (const line of lines) {
    const known = merged.get(line.key);
    merged.set(line.key, known === undefined ? line : { ...known, potIds: [...known.potIds, ...line.potIds], kit: [...known.kit, ...line.kit.filter(({ resource, unit }) => !known.kit.some((one) => one.resource === resource && one.unit === unit))] }); // prettier-ignore
  }
  return [...merged.values()].sort(
    (a, b) => Number(b.kind === 'evening') - Number(a.kind === 'evening') || a.atMin - b.atMin,
  );
}

function stepLines(plan: DayPlan, pot: DayPotTold): DayLine[] {
  const placed = plan.pots.find(({ potId }) => potId === pot.id);
  if (placed === undefined) return [];
  return placed.steps.flatMap((at, index): DayLine[] => {
    const step = pot.steps[index];
    if (step === undefined) return [];
    const held = plan.holds.filter(({ potId, stepId, preparationId, resource }) => potId === pot.id && stepId === step.id && preparationId === undefined && NUMBERED.has(resource)); // prettier-ignore
    const line: DayLine = {
      key: `step ${pot.makeId} ${step.id} ${at.startMin}`,
      kind: 'step',
      atMin: at.startMin,
      potIds: [pot.id],
      stepId: step.id,
      what: [step.name],
      handsMin: Math.ceil(step.handsMin.start + step.handsMin.during),
      kit: held.map(({ resource, unit }) => ({ resource, unit: unit + 1 })),
      endsMin: at.endLateMin - at.endEarlyMin >= LEAST_SPAN_MIN ? { early: at.endEarlyMin, late: at.endLateMin } : null,
      waitsMin: at.waitsMin,
    };
    return step.id !== placed.lastStepId
      ? [line]
      : [line, { ...line, key: `done ${pot.makeId} ${at.endMin}`, kind: 'done', atMin: at.endMin, what: [step.done], handsMin: 0, kit: [], endsMin: null, waitsMin: 0 }]; // prettier-ignore
  });
}

const LEAST_SPAN_MIN = 5; // narrower than this a span says no more than the time does: our own choice

/** Curd into the fridge, and out of it into warm water. */
function coldLines(plan: DayPlan, pot: DayPotTold): DayLine[] {
  const cold = plan.pots.find(({ potId }) => potId === pot.id)?.keptCold ?? null;
  if (cold === null) return [];
  const line = (kind: 'chill' | 'rewarm', atMin: number): DayLine => ({ key: `${kind} ${pot.makeId} ${atMin}`, kind, atMin, potIds: [pot.id], stepId: '', what: [], handsMin: LAY_OUT_MIN, kit: [], endsMin: null, waitsMin: 0 }); // prettier-ignore
  return [line('chill', cold.fromMin), line('rewarm', cold.toMin)];
}

function prepareLines(plan: DayPlan, pot: DayPotTold): DayLine[] {
  const own = plan.preparations.filter(({ potId }) => potId === pot.id);
  const groups = new Map<string, PlacedPreparation[]>();
  for (const one of own) {
    const key = `${one.by} ${one.stepId} ${one.startMin} ${one.by === 'hands' ? '' : one.preparationId}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].flatMap((group): DayLine[] => {
    const [first] = group;
    const step = pot.steps.find(({ id }) => id === first?.stepId);
    if (first === undefined || step === undefined) return [];
    const what = group.flatMap(({ preparationId }) => step.prepare.filter(({ id }) => id === preparationId).map((one) => one.what)); // prettier-ignore
    const held = plan.holds.find(({ potId, preparationId, stepId, resource }) => potId === pot.id && stepId === step.id && preparationId === first.preparationId && resource === first.by); // prettier-ignore
    const isEvening = first.by === 'evening';
    return [
      {
        key: `prepare ${pot.makeId} ${step.id} ${isEvening ? 'evening' : first.startMin} ${what.join()}`,
        kind: isEvening ? 'evening' : 'prepare',
        atMin: first.startMin,
        potIds: [pot.id],
        stepId: step.id,
        what,
        handsMin: first.by === 'hands' ? LAY_OUT_MIN : 0,
        kit: held === undefined || first.by === 'hands' ? [] : [{ resource: first.by, unit: held.unit + 1 }],
        endsMin: null,
        waitsMin: 0,
      },
    ];
  });
}
