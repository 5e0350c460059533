/**
 * Plans of nothing but a souring: culture into warm milk, and perhaps cut, scalded and drained at known minutes, until the
 * curd has come down to a pH. For kinds of culture that have no make yet, and for published sourings.
 */
import ball from '../../makes/stretched-ball.json' with { type: 'json' };
import { parseMake } from '../../src/make/make.ts';
import type { Plan } from '../../src/make/plan.ts';
import { planMake } from '../../src/make/planning.ts';
import type { Answers } from '../../src/make/setup.ts';
import type { CultureKind } from '../../src/science/culture.ts';

/** Cut and drained at these minutes after the culture, scalded in between. */
export interface CurdSchedule {
  readonly cutMin: number;
  readonly drainMin: number;
  readonly scald?: { readonly fromMin: number; readonly toMin: number; readonly toC: number };
  /** Kept at this after draining. */
  readonly drainedC: number;
}

export interface Souring {
  readonly kind: CultureKind;
  readonly culture: NonNullable<Answers['culture']>;
  readonly temperatureC: number;
  readonly startPH?: number;
  readonly targetPH: number;
  /** Twice as long is waited for the target. */
  readonly expectedMin: number;
  readonly curd?: CurdSchedule;
}

const RENNET_BEFORE_CUT_MIN = 30; // common practice (no source)

const figure = (value: number): { value: number; source: 'common practice' } => ({ value, source: 'common practice' });
const forMinutes = (minutes: number): unknown => ({
  join: 'first',
  of: [{ kind: 'time', minutes: figure(Math.max(minutes, 1)) }],
});

const step = (id: string, verb: string, set: object, until: unknown): unknown => ({
  id,
  verb,
  name: id,
  how: id,
  done: id,
  set,
  until,
  hands: { startMin: figure(0), duringMin: figure(0), endMin: figure(0) },
  kit: [],
  prepare: [],
  watch: [],
  why: id,
  cautions: [],
});

/** When each step of a souring begins and ends, minutes after the culture; the last one ends at the target. */
export function stepTimes(
  souring: Souring,
): readonly (readonly [stepId: string, startedMin: number, endedMin: number])[] {
  const { curd } = souring;
  if (curd === undefined) return [['add-culture', 0, 1], ['sour', 1, Infinity]]; // prettier-ignore
  const rennetMin = curd.cutMin - RENNET_BEFORE_CUT_MIN;
  const { scald } = curd;
  const whey: readonly (readonly [string, number, number])[] =
    scald === undefined
      ? [['stir', curd.cutMin + 5, curd.drainMin]]
      : [['heal', curd.cutMin + 5, scald.fromMin], ['cook', scald.fromMin, scald.toMin], ['stir', scald.toMin, curd.drainMin]]; // prettier-ignore
  return [
    ['add-culture', 0, 1],
    ...(rennetMin > 2 ? ([['ripen', 1, rennetMin]] as const) : []),
    ['add-rennet', Math.max(rennetMin, 1), Math.max(rennetMin, 1) + 1],
    ['set', Math.max(rennetMin, 1) + 1, curd.cutMin],
    ['cut', curd.cutMin, curd.cutMin + 5],
    ...whey,
    ['drain', curd.drainMin, curd.drainMin + 1],
    ['sour', curd.drainMin + 1, Infinity],
  ];
}

/** The plan of a souring in ten litres of cow's milk. */
export function souringPlan(souring: Souring): Plan {
  const { temperatureC, targetPH, curd } = souring;
  const atC = figure(temperatureC);
  const toTarget = {
    join: 'first',
    of: [
      { kind: 'pH', sample: 'curd', at: figure(targetPH) },
      { kind: 'time', minutes: figure(souring.expectedMin) },
    ],
  };
  const stepOf = (id: string, minutes: number): unknown => {
    switch (id) {
      case 'add-culture':
        return step(id, 'add', { ingredient: 'culture', atC }, forMinutes(minutes));
      case 'add-rennet':
        return step(id, 'add', { ingredient: 'rennet', atC }, forMinutes(minutes));
      case 'cut':
        return step(id, 'cut', { cubeMm: figure(10), atC }, forMinutes(minutes));
      case 'cook':
        return step(id, 'cook', { toC: figure(curd?.scald?.toC ?? temperatureC), overMinutes: figure(minutes) }, forMinutes(minutes)); // prettier-ignore
      case 'stir':
        return step(id, 'stir', { atC: figure(curd?.scald?.toC ?? temperatureC), stirring: 'gentle' }, forMinutes(minutes)); // prettier-ignore
      case 'drain':
        return step(id, 'drain', { downToCurd: true }, forMinutes(minutes));
      case 'sour':
        return step(id, 'ripen', { atC: figure(curd?.drainedC ?? temperatureC) }, toTarget);
      default:
        return step(id, id, { atC }, forMinutes(minutes));
    }
  };
  const make = parseMake({
    ...ball,
    id: 'souring',
    free: [],
    aims: [{ quantity: 'pH', sample: 'curd', moment: 'sour', low: 4, aim: targetPH, high: 7, basis: 'the target', source: 0 }], // prettier-ignore
    doses: { ...ball.doses, culture: { ...ball.doses.culture, kind: souring.kind } },
    steps: stepTimes(souring).map(([id, startedMin, endedMin]) => stepOf(id, endedMin - startedMin)),
  });
  const milk = { volumeL: 10, temperatureC, ...(souring.startPH === undefined ? {} : { pH: souring.startPH }) };
  return planMake({
    make,
    answers: {
      milk,
      culture: souring.culture,
      pot: { keptWarm: 'sink' },
      instruments: { pHMeter: true, thermometerErrorC: 0.5 },
      confirmed: ['milk.temperatureC', 'culture.bulkPercent', 'culture.packetFraction'],
    },
  });
}
