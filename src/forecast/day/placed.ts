import type { PlacedPot, PlacedPreparation, PlacedStep } from './day.ts';
import type { Job, PotJobs } from './jobs.ts';
import type { Placing } from './placing.ts';
import type { Want } from './units.ts';

/** A placing told as pots, steps and what they hold. */

/** Every step of every pot on the day's clock. */
export function placedPots(input: {
  readonly jobs: readonly Job[];
  readonly pots: readonly PotJobs[];
  readonly placing: Placing;
  /** By how much the whole day is moved. */
  readonly shiftMin: number;
}): PlacedPot[] {
  const { jobs, pots, placing, shiftMin } = input;
  return pots.map((pot) => {
    const zeroOf = (index: number): number => (placing.get(index)?.zeroMin ?? 0) + shiftMin;
    const steps = pot.chain.flatMap((index, part): PlacedStep[] => {
      const job = jobs[index];
      if (job === undefined) return [];
      const zeroMin = zeroOf(index);
      const before = pot.chain[part - 1];
      const [first, last] = job.steps;
      const isCold = first === pot.coldBefore;
      const waitsMin = before === undefined || isCold ? 0 : zeroMin - zeroOf(before) - (job.modes[0]?.lag?.least ?? 0);
      return pot.times.slice(first, last + 1).map((step, nth) => ({
        stepId: step.stepId,
        startMin: zeroMin + step.start.p50,
        endMin: zeroMin + step.end.p50,
        endEarlyMin: zeroMin + step.end.p5,
        endLateMin: zeroMin + step.end.p95,
        waitsMin: nth === 0 ? waitsMin : 0,
      }));
    });
    const doneIn = pot.chain.find((index) => jobs[index]?.doneMin !== null) ?? -1;
    const coldIn = pot.coldBefore === null ? undefined : pot.chain.find((index) => jobs[index]?.steps[0] === pot.coldBefore);
    const coldFrom = pot.coldBefore === null ? undefined : steps[pot.coldBefore - 1]?.endMin;
    return {
      potId: pot.pot.id,
      startMin: zeroOf(pot.chain[0] ?? -1),
      steps,
      lastStepId: pot.pot.steps[pot.lastStep]?.id ?? '',
      doneMin: zeroOf(doneIn) + (jobs[doneIn]?.doneMin ?? 0),
      keptCold: coldIn === undefined || coldFrom === undefined ? null : { fromMin: coldFrom, toMin: zeroOf(coldIn) },
    };
  }); // prettier-ignore
}

/** Everything that is held, by pots and by what is heated for them. */
export function wantsOf(input: {
  readonly jobs: readonly Job[];
  readonly placing: Placing;
  readonly shiftMin: number;
}): Want[] {
  const { jobs, placing, shiftMin } = input;
  return jobs.flatMap((job, index) => {
    const at = placing.get(index);
    const mode = job.modes[at?.mode ?? 0];
    if (at === undefined || mode === undefined) return [];
    return mode.uses.map(({ resource, fromMin, toMin, stepId, preparationId }): Want => ({
      resource,
      fromMin: at.zeroMin + shiftMin + fromMin,
      toMin: at.zeroMin + shiftMin + toMin,
      potId: job.potId,
      stepId,
      ...(preparationId === undefined ? {} : { preparationId }),
    }));
  });
}

/** Water that is heated, as it is told. */
export function heatedPreparations(wants: readonly Want[]): PlacedPreparation[] {
  return wants.flatMap(({ resource, fromMin, toMin, potId, stepId, preparationId }) =>
    preparationId === undefined || (resource !== 'kettle' && resource !== 'burner')
      ? []
      : [{ potId, stepId, preparationId, startMin: fromMin, endMin: toMin, by: resource }],
  );
}
