import { adoptedHistory } from '../make/adopt.ts';
import type { History } from '../make/history.ts';
import { ingredientSchema } from '../make/step.ts';
import { toldHistory, type Told } from '../make/told.ts';
import type { BatchRecord } from '../record/batch-record.ts';
import { independent } from './independent.ts';

const MS_PER_MIN = 60_000;

/**
 * The facts of one batch as the simulator takes them: elapsed minutes since the batch's zero, values as they stand now.
 * What was taken back is left out, and so is what happened after `nowAt`, so that a finished record can be replayed.
 * Of the pH that an instrument gives in a stream only what says something new is told (`independent.ts`); the record keeps all.
 * Weights of the drained curd and of the cheese come in as readings of `massKg`; mishaps and choices as what they did to the vat.
 *
 * @param input.nowAt  the moment seen as now, milliseconds UTC
 * @returns elapsed minutes; readings, judgements and additions in time order
 */
export function historyOf(input: { readonly record: BatchRecord; readonly nowAt: number }): History {
  const { record, nowAt } = input;
  const elapsedMin = (at: number): number => (at - record.zeroAt) / MS_PER_MIN;
  const isPast = (item: { readonly at: number }): boolean => item.at <= nowAt;

  const readings = [
    ...record.readings.filter(isPast).map((noted) => ({
      quantity: noted.quantity,
      value: noted.value,
      sample: noted.sample,
      ...(noted.sampleTemperatureC === undefined ? {} : { sampleTemperatureC: noted.sampleTemperatureC }),
      ...(noted.instrumentId === undefined ? {} : { instrumentId: noted.instrumentId }),
      elapsedMin: elapsedMin(noted.at),
    })),
    ...record.weighed.filter(isPast).flatMap((noted) =>
      noted.what === 'piece'
        ? [] // one piece says nothing of the whole
        : [
            {
              quantity: 'massKg' as const,
              value: noted.massKg,
              sample: noted.what === 'cheese' ? ('cheese' as const) : ('curd' as const),
              elapsedMin: elapsedMin(noted.at),
            },
          ],
    ),
  ].sort((a, b) => a.elapsedMin - b.elapsedMin);

  const noted: History = {
    nowMin: elapsedMin(nowAt),
    steps: stepsUntil(record, nowAt).map(({ stepId, startedAt, endedAt }) => ({
      stepId,
      startedMin: elapsedMin(startedAt),
      ...(endedAt === null ? {} : { endedMin: elapsedMin(endedAt) }),
    })),
    readings: independent(readings),
    judgements: record.judgements
      .filter(isPast)
      .map(({ judgement, grade, at }) => ({ judgement, grade, elapsedMin: elapsedMin(at) })),
    additions: record.added.filter(isPast).flatMap(({ ingredient, fractionOfPlan, at }) => {
      // Anything may be noted as added; the simulator knows the ingredients of the make language.
      const known = ingredientSchema.safeParse(ingredient);
      return known.success ? [{ ingredient: known.data, fractionOfPlan, elapsedMin: elapsedMin(at) }] : [];
    }),
  };
  const otherwise = [...record.mishaps.map((mishap) => ({ at: mishap.at, mishap })), ...record.choices.map((choice) => ({ at: choice.at, choice }))]; // prettier-ignore
  return otherwise
    .filter(isPast)
    .sort((a, b) => a.at - b.at)
    .reduce(
      (history, one) =>
        'mishap' in one
          ? toldHistory({ history, told: toldOf(one.mishap, elapsedMin(one.at)) })
          : adoptedHistory(history, one.choice),
      noted,
    );
}

/** A mishap of the record as it was told. */
export function toldOf(mishap: BatchRecord['mishaps'][number], elapsedMin: number): Told {
  const { what, temperatureC, minutes, ingredient, fractionOfPlan } = mishap;
  return { what, elapsedMin, temperatureC, minutes, ingredient, fractionOfPlan };
}

interface PastStep {
  readonly stepId: string;
  readonly startedAt: number;
  readonly endedAt: number | null;
}

/** Steps begun by `nowAt`. One whose start was not noted began when the step before it ended. */
function stepsUntil(record: BatchRecord, nowAt: number): PastStep[] {
  const past: PastStep[] = [];
  for (const { stepId, startedAt, endedAt } of record.steps) {
    const ended = endedAt !== null && endedAt <= nowAt ? endedAt : null;
    const before = past.reduce((latest, step) => Math.max(latest, step.endedAt ?? latest), record.zeroAt);
    const began = startedAt ?? (ended === null ? null : Math.min(before, ended));
    if (began === null || began > nowAt) continue;
    past.push({ stepId, startedAt: began, endedAt: ended });
  }
  return past;
}
