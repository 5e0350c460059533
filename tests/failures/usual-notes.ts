import { FLAT_PROBE_SD, METER_SD, THERMOMETER_SD_C } from '../../src/forecast/reading-error.ts';
import { figureOf, judgedStateAt, tracedAt, type Seen } from '../../src/forecast/explain-seen.ts';
import { stretchedC } from '../../src/forecast/explain-faults.ts';
import type { CourseStep } from '../../src/forecast/course.ts';
import type { History } from '../../src/make/history.ts';
import { JUDGEMENT_GRADES, type JudgementName } from '../../src/make/judgement.ts';
import type { Plan } from '../../src/make/plan.ts';
import { gradeProbabilities } from '../../src/science/judgements.ts';
import type { Random } from '../../src/numbers/random.ts';

/** How often a usual maker takes what the make's `watch` lines ask for. Our own choice. */
const TAKEN = { temperatureC: 0.7, pH: 0.8, flocculation: 0.8, massKg: 0.7, wheyL: 0.5, judgement: 0.7 } as const;
const WATER_TAKEN = 0.35; // water for washing and stretching, which no line asks for
const TEST_EVERY_MIN = 12;

type Readings = History['readings'][number][];
type Judgements = History['judgements'][number][];

/** What a usual maker notes of one make: the readings the make asks for, most of them, as their instruments show them. */
export function notesOf(input: {
  plan: Plan;
  truth: Seen;
  nowMin: number;
  random: Random;
}): Pick<History, 'readings' | 'judgements'> {
  const { plan, truth, random } = input;
  const readings: Readings = [];
  const judgements: Judgements = [];
  for (const step of truth.supposed.variant.course.steps) {
    if (step.startedMin === null) continue;
    const endMin = step.endedMin ?? input.nowMin;
    const span = { step, startMin: step.startedMin, endMin };
    for (const { quantity, sample, judgement } of step.plan.watch) {
      if (quantity === 'judgement') {
        if (judgement !== undefined) judgements.push(...judged({ ...span, truth, judgement, random }));
        continue;
      }
      if (quantity === 'pH' && !plan.setup.pHMeter) continue;
      if (random.uniform() > (TAKEN[quantity as keyof typeof TAKEN] ?? 0)) continue;
      readings.push(...read({ ...span, truth, quantity, sample, random }));
    }
    if ((step.verb === 'wash' || step.verb === 'stretch') && random.uniform() < WATER_TAKEN) {
      const waterC = step.plan.set.waterC;
      if (typeof waterC === 'number') {
        const shown = step.verb === 'stretch' ? waterC + truth.supposed.stretchWaterOffsetC : waterC;
        readings.push({
          quantity: 'temperatureC',
          sample: 'water',
          value: round(shown + 2 * random.normal(), 0.5),
          elapsedMin: step.startedMin + 0.5,
        });
      }
    }
  }
  const inTime = <T extends { elapsedMin: number }>(list: T[]): T[] =>
    [...list].sort((a, b) => a.elapsedMin - b.elapsedMin);
  return { readings: inTime(readings), judgements: inTime(judgements) };
}

interface Span {
  readonly step: CourseStep;
  readonly startMin: number;
  readonly endMin: number;
}

const round = (value: number, to: number): number => Math.round(value / to) * to;

function read(
  input: Span & { truth: Seen; quantity: string; sample: History['readings'][number]['sample']; random: Random },
): Readings {
  const { step, startMin, endMin, truth, sample, random, quantity } = input;
  const { inputs, variant } = truth.supposed;
  const note = (quantity: Readings[number]['quantity'], value: number, elapsedMin: number): Readings =>
    Number.isFinite(value) ? [{ quantity, value, sample, elapsedMin }] : [];
  const { thermometerBiasC } = inputs;
  const shownC = (trueC: number): number => round(trueC + thermometerBiasC + THERMOMETER_SD_C * random.normal(), 0.1);
  switch (quantity) {
    case 'temperatureC': {
      if (sample === 'water' || sample === 'brine') {
        const meant = sample === 'brine' ? step.plan.set.brineC : step.plan.set.bathC;
        const middle = typeof meant === 'number' ? meant : Number.NaN;
        return note('temperatureC', round(middle + 1 * random.normal(), 0.5), startMin + 1);
      }
      if (sample === 'cheese') return [];
      if (step.verb === 'stretch')
        return note('temperatureC', shownC(stretchedC(truth)), startMin + 0.7 * (endMin - startMin));
      const atEnd = step.verb === 'warm' || step.verb === 'wash' || step.plan.id === 'stir-warm';
      if (step.verb === 'warm') {
        const toC = step.plan.set.toC;
        return note(
          'temperatureC',
          typeof toC === 'number' ? round(toC + THERMOMETER_SD_C * random.normal(), 0.1) : Number.NaN,
          endMin - 0.5,
        );
      }
      const minute = atEnd ? endMin - 0.2 : startMin + 0.5 * (endMin - startMin);
      const trueC = atEnd
        ? (truth.run.endTemperatureC[step.index] ?? Number.NaN)
        : tracedAt(truth.run, 'temperatureC', minute);
      return note('temperatureC', shownC(trueC), minute);
    }
    case 'pH': {
      const sd = step.verb === 'restToAcid' || step.verb === 'drain' ? FLAT_PROBE_SD : METER_SD;
      const shares = step.verb === 'ripen' ? [0.04, 0.96] : step.verb === 'restToAcid' ? [0.5, 0.97] : [0.97];
      return shares.flatMap((share) => {
        const minute = startMin + share * (endMin - startMin);
        const pH = tracedAt(truth.run, sample === 'whey' ? 'wheyPH' : 'pH', minute);
        return note('pH', round(pH + inputs.meterBiasPH + sd * random.normal(), 0.01), minute);
      });
    }
    case 'flocculation': {
      const waited = endMin - truth.rennetMin;
      if (truth.flecksMin > waited) return [];
      const value = Math.max(round(truth.flecksMin * Math.exp(0.08 * random.normal()), 0.5), 1);
      return note('flocculationMin', value, truth.rennetMin + truth.flecksMin);
    }
    case 'massKg': {
      if (step.verb === 'drain')
        return note('massKg', round(figureOf(truth, 'curdKg') * Math.exp(0.02 * random.normal()), 0.01), endMin - 0.1);
      if (step.verb === 'pack')
        return note(
          'massKg',
          round(figureOf(truth, 'cheeseKg') * Math.exp(0.03 * random.normal()), 0.01),
          endMin - 0.1,
        );
      return [];
    }
    case 'wheyL': {
      const fraction = step.plan.set.fractionOfVat;
      if (typeof fraction !== 'number') return [];
      const drawn = fraction * variant.ground.plan.setup.milk.volumeL;
      return note('wheyL', round(drawn * Math.exp(0.12 * random.normal()), 0.1), endMin - 0.1);
    }
    default:
      return [];
  }
}

function judged(input: Span & { truth: Seen; judgement: JudgementName; random: Random }): Judgements {
  const { step, startMin, endMin, truth, judgement, random } = input;
  const ends = step.watches.some((watch) => watch.kind === 'judgement' && watch.judgement === judgement);
  // What ends a step is tested again and again, the last time as it ends; the rest once, towards the end.
  const minutes: number[] = [];
  if (ends) for (let at = endMin - 0.1; at > startMin + 5 && minutes.length < 3; at -= TEST_EVERY_MIN) minutes.push(at);
  else minutes.push(startMin + 0.85 * (endMin - startMin));
  return minutes.flatMap((elapsedMin) => {
    if (random.uniform() > TAKEN.judgement) return [];
    const state = judgedStateAt(truth, judgement, elapsedMin);
    if (!Number.isFinite(state)) return [];
    let left = random.uniform();
    const grades = JUDGEMENT_GRADES[judgement];
    const index = gradeProbabilities({ judgement, state }).findIndex((chance) => (left -= chance) <= 0);
    const grade = grades[Math.max(index, 0)];
    return grade === undefined ? [] : [{ judgement, grade, elapsedMin }];
  });
}
