import type { UnitSystem } from '../../../exchange/written.ts';
import { valueAt } from '../../../make/problems.ts';
import type { Answers } from '../../../make/setup.ts';
import { factsWithout } from './chosen-lots.ts';
import { ONE_POT, typedText, type Draft } from './draft.ts';
import { FACT_PATHS, type FactPath } from './draft-fields.ts';
import { localDay, localTime } from './wall-clock.ts';

/** A kept plan back on the table: every answer as it would be typed. */
export function draftOf(input: {
  readonly planned: {
    readonly makeId: string;
    readonly answers: Answers;
    readonly startAt: number;
    readonly doneBy?: number | undefined;
    readonly pots?: Draft['pots'] | undefined;
  };
  readonly units: UnitSystem;
}): Draft {
  const { makeId, answers, startAt, doneBy, pots = ONE_POT } = input.planned;
  const at = doneBy ?? startAt;
  const facts: Record<string, string> = {};
  for (const path of FACT_PATHS) {
    const value = valueAt({ json: answers, path: path.split('.') });
    if (value !== undefined) facts[path] = asTyped(path, value, input.units);
  }
  const lots = lotsOf(answers);
  // What a lot says is asked of it again: it has aged, or was tested since.
  const typed = (['rennet', 'culture', 'calcium'] as const).reduce<Draft['facts']>(
    (left, kind) => (lots[kind] === undefined ? left : factsWithout(left, kind)),
    facts,
  );
  return {
    makeId,
    facts: typed,
    units: input.units,
    confirmed: answers.confirmed ?? [],
    lots,
    changes: answers.changes ?? {},
    pots,
    clock: { mode: doneBy === undefined ? 'start-at' : 'done-by', time: localTime(at), day: localDay(at) },
  };
}

/** Which lots the answers named. */
function lotsOf({ rennet, culture, calcium }: Answers): Draft['lots'] {
  return {
    ...(rennet?.lot === undefined ? {} : { rennet: rennet.lot }),
    ...(culture?.lot === undefined ? {} : { culture: culture.lot }),
    ...(calcium?.lot === undefined ? {} : { calcium: calcium.lot }),
  };
}

function asTyped(path: FactPath, value: unknown, units: UnitSystem): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' ? typedText({ path, value, units }) : String(value);
}
