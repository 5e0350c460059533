import type { UnitSystem } from '../../../exchange/written.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import type { Make } from '../../../make/make.ts';
import type { Plan } from '../../../make/plan.ts';
import { expectedMin } from '../../../make/planning.ts';
import type { Draft } from '../plan/draft.ts';
import { planOfRow } from './day-input.ts';
import type { DayState } from './day-state.ts';
import type { Wanted } from './use-day-forecasts.ts';

const MOST = 2; // other makes that are worked out for a day that does not fit: own choice, a second or two

/** Makes that could stand in for those of the day: the shortest of the same family first, by the times that they give themselves. */
export function quickMakes(input: {
  readonly makes: readonly Make[];
  readonly state: DayState;
  readonly draft: Draft;
  readonly units: UnitSystem;
}): Wanted[] {
  const { makes, state, draft, units } = input;
  const [row] = state.rows;
  if (row === undefined) return [];
  const used = new Set(state.rows.map(({ makeId }) => makeId));
  const family = makes.find(({ id }) => id === row.makeId)?.family;
  return makes
    .filter(({ id }) => !used.has(id))
    .flatMap((make) => {
      const { plan, answers } = planOfRow({ row: { ...row, makeId: make.id }, make, draft, units });
      return plan === null
        ? []
        : [{ key: `${make.id} ${JSON.stringify(answers)}`, plan, history: NO_HISTORY, seed: 1 }];
    })
    .sort(
      (a, b) =>
        Number(b.plan.make.family === family) - Number(a.plan.make.family === family) ||
        lengthOf(a.plan) - lengthOf(b.plan),
    ) // prettier-ignore
    .slice(0, MOST);
}

const lengthOf = ({ steps }: Plan): number => steps.reduce((sum, step) => sum + (expectedMin(step) ?? 30), 0);
