import { meansTold } from '../../../exchange/advice-told.ts';
import { nameOf, valueText, type Telling as SettingTelling } from '../../../exchange/solve/solve-words.ts';
import { choiceForecast } from '../../../forecast/choice-forecast.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import { choiceOf, ROOM, type OpenFigure, type Settings, type WhatIf } from '../../../forecast/what-if.ts';
import type { Plan } from '../../../make/plan.ts';
import { outcomeView } from '../plan/outcome-view.ts';
import type { Entry } from './actions.ts';
import { choiceTaken } from './choice-entries.ts';
import { decisiveStep } from './decisive-step.ts';
import { clockOf, expectText, type Telling } from './said.ts';

/** One figure that may be set otherwise, as a row with two buttons. */
export interface SettingRow {
  readonly id: string;
  readonly name: string;
  readonly value: string;
  /** As it stands; null while it is not set otherwise. */
  readonly was: string | null;
  /** The settings after one tap; null at the end of its range. */
  readonly less: Settings | null;
  readonly more: Settings | null;
}

/** What one tap moves, where the make's own step is finer than a hand needs. Our own choice. */
const TAP: Readonly<Partial<Record<OpenFigure['unit'], number>>> = { min: 5, 'of the dose': 0.1, 'IMCU/L': 2.5, g: 10, L: 0.5, 'of the vat': 0.05, 'of the whey': 0.05 }; // prettier-ignore

/** The rows of the sheet, in the reader's units. */
export function settingRows(input: {
  readonly figures: readonly OpenFigure[];
  readonly settings: Settings;
  readonly plan: Plan;
  readonly telling: Telling;
}): readonly SettingRow[] {
  const { figures, settings } = input;
  const telling = settingTelling(input);
  return figures.map((figure): SettingRow => {
    const { id, now, isExpected } = figure;
    const value = settings[id] ?? now;
    const text = (of: number): string => valueText({ ...telling, id, value: of });
    const standing = isExpected ? telling.say('solve:units.about', { value: text(now) }) : text(now);
    const isSet = settings[id] !== undefined;
    return {
      id,
      name: nameOf(id, telling),
      value: isSet ? text(value) : standing,
      was: isSet ? standing : null,
      less: tapped(figure, settings, -1),
      more: tapped(figure, settings, 1),
    };
  });
}

/** The settings after one tap up or down; a figure back where it stands is no setting. */
function tapped(figure: OpenFigure, settings: Settings, sign: 1 | -1): Settings | null {
  const { id, now, low, high, step, unit, isExpected } = figure;
  const from = settings[id] ?? now;
  const tap = Math.max(step, TAP[unit] ?? step);
  const next = Number(Math.min(Math.max(from + sign * tap, low), high).toFixed(3));
  if (Math.abs(next - from) < 1e-9) return null;
  const { [id]: _was, ...others } = settings;
  return Math.abs(next - now) < 1e-9 && !isExpected ? others : { ...others, [id]: next };
}

const settingTelling = ({ plan, figures, telling }: { readonly plan: Plan; readonly figures: readonly OpenFigure[]; readonly telling: Telling }): SettingTelling => ({ ...telling, plan, adjustables: figures }); // prettier-ignore

/** One figure of what comes of it, old and new. */
export interface FigureRow {
  readonly id: string;
  readonly name: string;
  readonly value: string;
  readonly span: string;
  /** Both as they were; null where they read alike. */
  readonly was: string | null;
}

/** When it is done and what it gives, before and after. */
export function figureRows(input: {
  readonly answer: WhatIf;
  readonly plan: Plan;
  readonly telling: Telling;
}): readonly FigureRow[] {
  const { answer, plan, telling } = input;
  const before = figuresOf(answer.was, plan, telling);
  return figuresOf(answer.next, answer.plan, telling).map((row): FigureRow => {
    const was = before.find(({ id }) => id === row.id);
    const isSame = was === undefined || (was.value === row.value && was.span === row.span);
    return { ...row, was: isSame ? null : telling.say('plan:outcome.told', { about: was.value, span: was.span }) };
  });
}

function figuresOf(forecast: Forecast, plan: Plan, telling: Telling): Omit<FigureRow, 'was'>[] {
  const { say } = telling;
  const decisive = decisiveStep({ plan, forecast });
  const ends = [...(decisive === null ? [] : [{ id: 'decisive', name: decisive.label, stepId: decisive.stepId }]), { id: 'end', name: say('vat:whatIf.end'), stepId: plan.steps.at(-1)?.id ?? '' }]; // prettier-ignore
  const clocks = ends.flatMap(({ id, name, stepId }) => {
    const endMin = forecast.steps.find((step) => step.stepId === stepId)?.endMin;
    if (endMin === undefined) return [];
    const { p5, p50, p95 } = endMin;
    if (![p5, p50, p95].every(Number.isFinite)) return [{ id, name, value: Number.isFinite(p50) ? clockOf(telling, p50) : say('vat:whatIf.unseen'), span: expectText(telling, endMin) }]; // prettier-ignore
    return [{ id, name, value: clockOf(telling, p50), span: say('plan:span.nineInTen', { low: clockOf(telling, p5), high: clockOf(telling, p95) }) }]; // prettier-ignore
  });
  const gives = outcomeView({ forecast, make: plan.make, ...telling }).rows;
  return [...clocks, ...gives.map(({ id, name, written, span }) => ({ id, name, value: written.text, span }))];
}

/** In one sentence: the finish and the aim that decides, against how it stands. */
export function meansOf(input: {
  readonly answer: WhatIf;
  readonly plan: Plan;
  readonly telling: Telling;
  readonly nowMin: number;
}): string {
  const { answer, plan, telling, nowMin } = input;
  return meansTold(choiceForecast(answer.plan, answer.next), choiceForecast(plan, answer.was), { ...telling, nowMin });
}

/** What is done otherwise from now on, as the record keeps it: the settings, and the forecast that was shown beside them. */
export function whatIfEntries(input: {
  readonly answer: WhatIf;
  readonly settings: Settings;
  readonly figures: readonly OpenFigure[];
  readonly plan: Plan;
  readonly telling: Telling;
  readonly nowMin: number;
}): { readonly entries: readonly Entry[]; readonly title: string } {
  const { answer, settings, figures, telling } = input;
  const words = settingTelling(input);
  const { say } = telling;
  const line = (id: string, value: number): string => {
    const now = figures.find((one) => one.id === id)?.now ?? value;
    return say('solve:change.line', { name: nameOf(id, words), value: valueText({ ...words, id, value }), was: valueText({ ...words, id, value: now }) }); // prettier-ignore
  };
  const title = Object.entries(settings).map(([id, value]) => line(id, value)).join('; '); // prettier-ignore
  const { changes } = choiceOf(settings);
  const taken = { title, because: say('vat:whatIf.because'), said: meansOf(input) };
  const choice = choiceTaken(answer.next, choiceForecast(answer.plan, answer.next), taken, changes === undefined ? {} : { changes }); // prettier-ignore
  const roomC = settings[ROOM];
  const room: readonly Entry[] = roomC === undefined ? [] : [{ kind: 'reading', body: { quantity: 'temperatureC', value: roomC, sample: 'room' } }]; // prettier-ignore
  return { entries: [choice, ...room], title };
}
