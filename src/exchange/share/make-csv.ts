/** The steps of a planned make as a table: one row a step, one column a setting, units in the names. */
import { isRecord } from '../../make/problems.ts';
import type { Plan } from '../../make/plan.ts';
import { csvText, type CsvCell } from './csv.ts';

const FIRST = ['number', 'step', 'verb', 'name', 'how', 'done', 'why'] as const;

/**
 * @returns CSV: what each step is, what it sets, what ends it, whose hands it wants, and the amounts that go in
 */
export function makeCsv(plan: Plan): string {
  const settings = [...new Set(plan.steps.flatMap(({ set }) => Object.keys(set)))];
  const head = [...FIRST, ...settings, 'until', 'untilJoin', 'handsStartMin', 'handsDuringMin', 'handsEndMin', 'kit', 'amounts', 'cautions']; // prettier-ignore
  const rows = plan.steps.map((step, index): CsvCell[] => {
    const set: Readonly<Record<string, number | string | boolean | undefined>> = step.set;
    const amounts = plan.amounts.filter(({ stepId }) => stepId === step.id);
    return [
      index + 1, step.id, step.verb, step.name, step.how, step.done, step.why,
      ...settings.map((name) => cellOf(set[name])),
      step.until.of.map(conditionText).join(' | '), step.until.join,
      step.handsMin.start, step.handsMin.during, step.handsMin.end, step.kit.join(' '),
      amounts.map(({ id, value, unit }) => `${id} ${Number(value.toPrecision(6))} ${unit}`).join(' | '), step.cautions.join(' '),
    ]; // prettier-ignore
  });
  return csvText([head, ...rows]);
}

const cellOf = (value: number | string | boolean | undefined): CsvCell =>
  value === undefined ? null : typeof value === 'boolean' ? String(value) : value;

/** A condition as data: its kind and its figures, `temperature atC=36`. */
function conditionText(condition: Plan['steps'][number]['until']['of'][number]): string {
  const { kind, ...figures } = condition;
  const told = Object.entries(figures).flatMap(([name, value]): string[] => {
    if (name === 'source') return [];
    if (isRecord(value)) return [`${name}=${String(value['value'])}`];
    return typeof value === 'string' || typeof value === 'number' ? [`${name}=${value}`] : [];
  });
  return [kind, ...told].join(' ');
}
