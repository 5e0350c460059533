import type { Disturbance } from '../make/disturbance.ts';
import { addTo, lateAdditions } from './additions.ts';
import type { Course } from './course.ts';
import type { Vat } from './vat-state.ts';

/** One thing that happens to the vat at its minute, whatever step runs. */
export interface Act {
  readonly elapsedMin: number;
  readonly on: (vat: Vat) => void;
}

/** Everything that moves the vat beside the plan, in time order: disturbances, and what was added late. */
export function actsOf(course: Course): readonly Act[] {
  const late = lateAdditions(course).map(({ elapsedMin, ingredient, fractionOfPlan }) => ({
    elapsedMin,
    on: (vat: Vat) => addTo(vat, ingredient, fractionOfPlan),
  }));
  return [...(course.history.disturbances ?? []).flatMap(actsFor), ...late].sort((a, b) => a.elapsedMin - b.elapsedMin);
}

function actsFor(disturbance: Disturbance): Act[] {
  const { elapsedMin } = disturbance;
  switch (disturbance.kind) {
    case 'temperature': {
      const set = (vat: Vat): number => (vat.temperatureC = disturbance.temperatureC - vat.inputs.thermometerBiasC);
      if (disturbance.minutes === 0) return [{ elapsedMin, on: set }];
      return [
        { elapsedMin, on: (vat) => (vat.heldC = set(vat)) },
        { elapsedMin: elapsedMin + disturbance.minutes, on: (vat) => (vat.heldC = Number.NaN) },
      ];
    }
    case 'noHeat':
      return [
        { elapsedMin, on: (vat) => (vat.isUnheated = true) },
        { elapsedMin: elapsedMin + disturbance.minutes, on: (vat) => (vat.isUnheated = false) },
      ];
    case 'cut':
      return [
        {
          elapsedMin,
          on: (vat) => {
            if (vat.conditions.phase === 'curd-in-whey') vat.syneresis.cubeMm = disturbance.cubeMm;
          },
        },
      ];
  }
}

/** Lets everything happen that does by now. */
export function actUpTo(walk: { readonly vat: Vat; readonly acts: readonly Act[]; nextAct: number }): void {
  for (;;) {
    const act = walk.acts[walk.nextAct];
    if (act === undefined || act.elapsedMin > walk.vat.minute + 1e-9) return;
    walk.nextAct++;
    act.on(walk.vat);
  }
}
