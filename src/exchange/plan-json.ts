/** A plan worked out, as data for another program: minutes since the start, and what the wall clock shows. */
import type { Spread } from '../numbers/stats.ts';
import type { Forecast } from '../forecast/forecast.ts';
import { isMadeAhead, preparedAmount, readyAmount, type ReadyAmount } from '../forecast/ready-amount.ts';
import { preparationsOf, type Schedule } from './schedule.ts';
import { shoppingList } from './shopping.ts';
import { narrowest } from './text/notes-text.ts';
import type { Sheet } from './text/telling.ts';
import { withNulls } from './with-nulls.ts';

const MINUTE_MS = 60_000;

/** Everything of the sheet; times never reached are null, instants are UTC (ISO 8601). */
export function planDocument(sheet: Sheet): object {
  const { plan, forecast, schedule, say } = sheet;
  const { make } = plan;
  const at = (elapsedMin: number): string | null =>
    Number.isFinite(elapsedMin) ? new Date(schedule.zeroAt + elapsedMin * MINUTE_MS).toISOString() : null;
  return {
    make: { id: make.id, version: make.version, name: make.name },
    setup: plan.setup,
    changes: plan.changes ?? {},
    schedule: scheduleOut(schedule),
    amounts: plan.amounts,
    madeAhead: plan.amounts.filter(isMadeAhead).map((amount) => readyOut(readyAmount({ amount, forecast }))),
    shopping: shoppingList(sheet),
    preparations: preparationsOf({ plan, forecast }).map(({ id, step, preparation, startMin, isEveningBefore }) => ({
      id,
      forStep: step.id,
      what: preparation.what,
      ready: readyOut(preparedAmount({ plan, forecast, step, preparation })),
      startMin,
      startAt: isEveningBefore ? null : at(startMin),
      isEveningBefore,
    })),
    clock: plan.steps.flatMap((step) => clockOut(sheet, step.id, at)),
    outcome: withNulls(forecast.outcome),
    needs: withNulls(forecast.needs),
    aims: forecast.aims.map(({ aim, spread, probability }) => ({
      ...make.aims[aim],
      spread: spreadOut(spread),
      probability,
    })),
    spoonDelayMin: sheet.spoonDelayMin,
    assumptions: plan.assumed,
    mostWorthAnswering: narrowest(plan.assumed)?.field ?? null,
    cautions: forecast.findings.map(({ code, severity, fields, source }) => ({
      id: code,
      severity,
      text: say(`findings:${code}`, fields),
      source,
    })),
    remarks: plan.remarks ?? [],
    sources: make.sources,
    forecast: {
      members: forecast.members,
      seed: forecast.seed,
      modelVersion: forecast.modelVersion,
      restsOn: forecast.restsOn,
      gridMin: forecast.gridMin,
      bands: withNulls(forecast.bands),
    },
  };
}

function scheduleOut({ zeroAt, endAt, endLateAt, keptIn20, lastStepId, tooLate }: Schedule): object {
  const iso = (ms: number): string => new Date(ms).toISOString();
  return {
    startAt: iso(zeroAt),
    endAt: iso(endAt),
    endLateAt: iso(endLateAt),
    keptIn20,
    lastStepId,
    tooLate: tooLate === null ? null : { earliestEndAt: iso(tooLate.earliestEndAt) },
  };
}

function clockOut(sheet: Sheet, stepId: string, at: (elapsedMin: number) => string | null): object[] {
  const step = sheet.plan.steps.find((each) => each.id === stepId);
  const foreseen: Forecast['steps'][number] | undefined = sheet.forecast.steps.find((each) => each.stepId === stepId);
  if (step === undefined || foreseen === undefined) return [];
  const { id, name, verb, handsMin } = step;
  return [
    {
      id,
      name,
      verb,
      handsMin,
      startAt: at(foreseen.startMin.p50),
      startMin: spreadOut(foreseen.startMin),
      endMin: spreadOut(foreseen.endMin),
      looksAt: foreseen.looksMin.map(at),
      endPH: spreadOut(foreseen.endPH),
      endTemperatureC: spreadOut(foreseen.endTemperatureC),
    },
  ];
}

const readyOut = (ready: ReadyAmount | null): object | null =>
  ready === null ? null : { ...ready, used: spreadOut(ready.used) };

const spreadOut = (spread: Spread | null): unknown => withNulls(spread);
