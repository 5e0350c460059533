/** What was assumed, what to beware of, and where figures come from. */
import { adjustablesOf } from '../../make/adjustable.ts';
import type { Assumption } from '../../make/setup.ts';
import { sentenceInUnits } from '../../make/sentence.ts';
import { told } from '../words.ts';
import { nameOf, valueText } from '../solve/solve-words.ts';
import { columns, paragraph, wrapped } from './layout.ts';
import type { Sheet } from './telling.ts';

/** The one answer that would narrow the finish most; null where nothing open would narrow it much. */
export function narrowest(assumed: readonly Assumption[]): Assumption | null {
  return assumed.find((one) => one.widens === 'much') ?? assumed.find((one) => one.widens === 'some') ?? null;
}

/** What was chosen otherwise than the make has it. */
export function changedLines(sheet: Sheet): string[] {
  const { plan, schedule, width } = sheet;
  const telling = { ...sheet, adjustables: adjustablesOf(plan), zeroAt: schedule.zeroAt };
  const lines = Object.entries(plan.changes ?? {}).map(([id, value]) => `${nameOf(id, telling)} ${valueText({ ...telling, id, value })}.`); // prettier-ignore
  return lines.flatMap((text) => paragraph({ text, width }));
}

/** The assumption worth answering first, then all of them. */
export function assumedLines(sheet: Sheet): string[] {
  const { plan, say, width, wayToAnswer } = sheet;
  const most = narrowest(plan.assumed);
  const ask =
    most === null
      ? []
      : paragraph({ text: say('plan-text:assumed.most', { fact: say(`plan:facts.${most.field}`), value: assumedText(most, sheet), way: wayToAnswer(most.field) }), width }); // prettier-ignore
  const rows = plan.assumed.map((one) => [
    say(`plan:facts.${one.field}`),
    assumedText(one, sheet),
    wayToAnswer(one.field),
    say(`plan-text:assumed.${one.widens}`),
  ]);
  const head = ['fact', 'value', 'way', 'widens'].map((id) => say(`plan-text:assumed.head.${id}`));
  return [...ask, ...columns({ rows: [head, ...rows], width })];
}

function assumedText(one: Assumption, { say, both, write }: Sheet): string {
  const { value, unit, field, span } = one;
  if (typeof value === 'boolean') return say(`plan:options.${value ? 'yes' : 'no'}`);
  if (typeof value === 'string') return say(`plan:options.${field}.${value}`);
  if (unit === 'L') return both.volume(value).text;
  if (unit === '°C' && field !== 'instruments.thermometerErrorC') return both.temperature(value).text;
  const number = write.number(value, decimalsOf(value));
  const plainly = unit === undefined ? number : `${number} ${told(say, unit)}`;
  return span === undefined ? plainly : say('plan-text:assumed.tested', { value: plainly, ...span });
}

/** As many decimals as the figure has. */
const decimalsOf = (value: number): number => String(value).split('.')[1]?.length ?? 0;

/** Cautions of the forecast, the gravest first, and what this milk and kit do to the make. */
export function cautionLines(sheet: Sheet): string[] {
  const { forecast, plan, say, both, width } = sheet;
  const order = { stop: 0, caution: 1, info: 2 };
  const findings = [...forecast.findings]
    .sort((a, b) => order[a.severity] - order[b.severity])
    .map(({ severity, code, fields }) => [
      say(`plan-text:severity.${severity}`),
      sentenceInUnits({ text: say(`findings:${code}`, fields), units: both.units }),
    ]);
  const remarks = (plan.remarks ?? []).map(({ because, instead }) => [
    say('plan-text:severity.remark'),
    sentenceInUnits({ text: `${because} ${instead}`, units: both.units }),
  ]);
  return columns({ rows: [...findings, ...remarks], width });
}

/** The make's numbered sources, and what the forecast rests on. */
export function sourceLines(sheet: Sheet): string[] {
  const { plan, forecast, say, width } = sheet;
  const numbered = plan.make.sources.flatMap((source, index) => {
    const label = `${index}.`.padStart(5);
    return wrapped({ text: source, width: width - 6 }).map((line, row) => (row === 0 ? `${label} ${line}` : `      ${line}`)); // prettier-ignore
  });
  const values = { members: forecast.members, seed: forecast.seed, version: forecast.modelVersion };
  return [
    ...numbered,
    ...paragraph({ text: say('plan-text:sources.practice'), width }),
    ...paragraph({ text: say('plan-text:sources.forecast', values), width }),
    ...paragraph({ text: say('plan-text:sources.safety'), width }),
  ];
}
