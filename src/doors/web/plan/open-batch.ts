import type { Forecast } from '../../../forecast/forecast.ts';
import type { Spread } from '../../../numbers/stats.ts';
import type { Plan } from '../../../make/plan.ts';
import type { Answers } from '../../../make/setup.ts';
import type { EventLog, Note } from '../log/event-log.ts';

/** What becomes a batch: the plan as it stands, its clock, and the forecast that was shown. */
export interface Opening {
  readonly plan: Plan;
  readonly answers: Answers;
  readonly forecast: Forecast;
  readonly zeroAt: number;
  readonly name: string;
  readonly lotCode: string;
  /** The pots it is opened with; left out where it stands alone. */
  readonly together?: { readonly id: string; readonly of: number; readonly nth: number };
}

/**
 * The two notes that make a plan a batch: make and answers as they stood, and which forecast was shown, so that a
 * replay shows what *was* foreseen.
 */
export function openingNotes(opening: Opening, streamId: string): readonly Note[] {
  const { plan, answers, forecast, zeroAt, name, lotCode, together } = opening;
  const end = forecast.steps.at(-1)?.endMin;
  const kept = ({ p5, p50, p95 }: Spread): Record<string, number | null> => ({ p5: finite(p5), p50: finite(p50), p95: finite(p95) }); // prettier-ignore
  return [
    { kind: 'batchOpened', streamId, body: { make: plan.make, answers, name, lotCode, zeroAt, ...(together === undefined ? {} : { together }) } },
    {
      kind: 'planFrozen',
      streamId,
      body: {
        seed: forecast.seed,
        members: forecast.members,
        modelVersion: forecast.modelVersion,
        summary: {
          endMin: end === undefined ? null : kept(end),
          cultureToReadyMin: kept(forecast.outcome.cultureToReadyMin),
          cheeseKg: kept(forecast.outcome.cheeseKg),
        },
      },
    },
  ]; // prettier-ignore
}

/** JSON has no infinity: what is not foreseen is null. */
const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

/** Opens the batch on this device. @returns the id in the address of its vat screen */
export async function openBatch(log: EventLog, opening: Opening): Promise<string> {
  const streamId = log.newStreamId('batch');
  await log.recordAll(openingNotes(opening, streamId));
  return streamId.replace(/^batch:/, '');
}

/** Opens several pots in one step: all of them or none. */
export async function openTogether(log: EventLog, openings: readonly Opening[]): Promise<void> {
  await log.recordAll(openings.flatMap((opening) => openingNotes(opening, log.newStreamId('batch'))));
}
