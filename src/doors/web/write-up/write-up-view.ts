/** What the write-up says, from data: what was seen beside what the make meant, and what rests on one kitchen. */
import type { Plan } from '../../../make/plan.ts';
import { degrees, litres, type Told } from '../../../exchange/paper/step-words.ts';
import type { RestsOnMine } from '../../../exchange/write-up/rests-on-mine.ts';
import type { Seen, SeenFigures, SeenStep } from '../../../exchange/write-up/seen.ts';

/** One step: what the make meant, what came, and the words at the vat. */
export interface SeenRow {
  readonly stepId: string;
  readonly name: string;
  readonly meant: string;
  readonly came: string;
  readonly words: string;
}

/** One line a step of what was seen in the makings. */
export function seenRows(input: { readonly plan: Plan; readonly seen: Seen; readonly told: Told }): readonly SeenRow[] {
  const { plan, seen, told } = input;
  const { say, write } = told;
  return plan.steps.map((step) => {
    const here = seen.steps.find(({ stepId }) => stepId === step.id);
    const time = step.until.of.find((one) => one.kind === 'time');
    const minutes = time?.kind === 'time' ? write.duration(time.minutes.value) : '';
    const toC = step.set.toC;
    const warm = typeof toC === 'number' ? degrees(told, toC) : '';
    return {
      stepId: step.id,
      name: step.name,
      meant: [minutes, warm].filter((one) => one !== '').join(', '),
      came: here === undefined ? '' : cameText(here, told),
      words:
        here === undefined
          ? ''
          : [...here.said.map((said) => `“${say.tell?.(said) ?? said}”`), ...here.grades.map(({ judgement, grade }) => say(`vat:judge.${judgement}.${grade}.name`))].join(', '),
    };
  });
} // prettier-ignore

function cameText({ minutes, temperatureC, pH }: SeenStep, told: Told): string {
  const { say, write } = told;
  const span = (seen: SeenFigures | null, text: (value: number) => string): string[] => {
    if (seen === null) return [];
    const low = text(seen.low);
    const high = text(seen.high);
    return [low === high ? low : say('record:span', { low, high })];
  };
  return [
    ...span(minutes, (value) => write.duration(Math.max(1, value))),
    ...span(temperatureC, (value) => degrees(told, value)),
    ...span(pH, (value) => `pH ${write.pH(value).text}`),
  ].join(', ');
}

/** Doses as shares of what was planned. */
export function doseRows({ seen, told }: { readonly seen: Seen; readonly told: Told }): readonly { readonly name: string; readonly text: string }[] {
  const { say } = told;
  const percent = (share: number): string => told.write.number(share * 100, 0);
  return seen.doses.map(({ ingredient, fraction }) => ({
    name: say(`record:ingredient.${ingredient}`),
    text: percent(fraction.low) === percent(fraction.high) ? say('writeup:dose', { percent: percent(fraction.low) }) : say('writeup:doseSpan', { low: percent(fraction.low), high: percent(fraction.high) }),
  }));
} // prettier-ignore

/** A finding in words, with the reader's units. */
export function restText({ code, fields }: RestsOnMine, told: Told): string {
  const { say, write } = told;
  const number = (name: string): number => Number(fields[name] ?? 0);
  const values = {
    ...fields,
    treatsL: write.number(number('treatsL'), number('treatsL') % 1 === 0 ? 0 : 1),
    at: degrees(told, number('toC')),
    pot: litres(told, number('potL')),
    low: write.number(number('low'), 0),
    high: write.number(number('high'), 0),
    milk: fields['lowL'] === fields['highL'] ? litres(told, number('lowL')) : say('record:span', { low: litres(told, number('lowL')), high: litres(told, number('highL')) }),
    room: degrees(told, number('roomC')),
    kept: fields['kept'] === undefined ? '' : say(`plan:options.pot.keptWarm.${fields['kept']}`),
    metres: write.number(number('altitudeM'), 0),
    boils: degrees(told, number('boilsC')),
    error: write.units === 'us' ? `${write.number(number('errorC') * 1.8, 1)}\u202F°F` : `${write.number(number('errorC'), 1)}\u202F°C`,
  };
  return say(`writeup:rests.${code === 'burner' && fields['low'] !== undefined ? 'burnerSeen' : code}`, values);
} // prettier-ignore

/** An id from a name: small letters, figures and dashes. */
export function idOf(name: string, fallback: string): string {
  const id = name
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^[^a-z]+|-+$/g, '')
    .slice(0, 60);
  return id === '' ? fallback : id;
}
