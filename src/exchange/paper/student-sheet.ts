/** The pupil's sheet at the pot: one side, one row a step, room for what was seen, and no dose but this pot's own. */
import { JUDGEMENT_GRADES, type JudgementName } from '../../make/judgement.ts';
import type { Plan, PlannedStep } from '../../make/plan.ts';
import { el, type PaperElement, type PaperSheet } from './element.ts';
import { blank, facts, head, table } from './parts.ts';
import { endText, quantityText, settingsOf, stepsOfDay, type Figured, type Told } from './step-words.ts';

/** More rows than this are set smaller, so that one side is enough. Our own choice. */
const MANY_ROWS = 17;
/** Only curd of this and less is for children's hands: common practice (no source); 45 °C is where skin begins to burn slowly. */
export const HANDS_C = 45;
/** From here on who pours is written down beforehand. Burns begin within minutes at 51 °C (Moritz & Henriques 1947, at second hand). */
const HOT_C = 50;

/** The pot as the pupils know it. */
export interface StudentPot {
  readonly name: string | null;
  readonly lotCode: string | null;
  /** Words of the day it is made; null leaves a blank. */
  readonly day: string | null;
}

/**
 * The sheet.
 * @param input.lastStepId the last step of the day; all steps where undefined
 */
export function studentSheet(input: {
  readonly plan: Plan;
  readonly pot: StudentPot;
  readonly lastStepId: string | undefined;
  readonly told: Told;
}): PaperSheet {
  const { plan, pot, told } = input;
  const { say } = told;
  const steps = stepsOfDay(input);
  const { milk } = plan.setup;
  const isMetered = plan.setup.pHMeter;
  const columns = ['number', 'step', 'time', 'warmth', 'seen', ...(isMetered ? ['pH'] : [])];
  return {
    id: 'student',
    title: say('paper:student.title', { name: plan.make.name }),
    head: [plan.make.name, pot.name, pot.lotCode].filter((one) => one !== null && one !== '').join(', '),
    isOnePage: true,
    body: [
      el(
        'div',
        { class: 'paper-student', ...(steps.length > MANY_ROWS ? { 'data-rows': 'many' } : {}) },
        head({ title: plan.make.name, under: say('paper:student.under', { milk: milkText(plan, told) }) }),
        facts([
          { name: say('paper:student.pot'), value: pot.name },
          { name: say('paper:student.names'), value: null },
          { name: say('paper:student.day'), value: pot.day },
          { name: say('paper:student.lot'), value: milk.treatment === 'raw' ? say('paper:student.rawLot') : null },
        ]),
        hotWater(steps, told),
        el(
          'div',
          'paper-grow',
          table({
            head: columns.map((column) => column === 'warmth' ? (told.write.units === 'us' ? '°F' : '°C') : say(`paper:student.column.${column}`)), // prettier-ignore
            rows: steps.map((step, index) => rowOf({ ...input, step, number: index + 1, isMetered })),
          }),
        ),
        scale(steps, told),
        facts(
          ['grade', 'initials'].map((id) => ({ name: say(`paper:student.${id}`), value: null })),
          'wide',
        ),
        facts([{ name: say('paper:student.nextTime'), value: null }], 'one'),
      ),
    ],
  };
}

function rowOf(input: {
  readonly plan: Plan;
  readonly step: PlannedStep;
  readonly number: number;
  readonly told: Told;
  readonly isMetered: boolean;
}): (PaperElement | string | null)[] {
  const { step, number } = input;
  const rest = [figuresText(input), endText(input)].filter((one) => one !== '').join(' ');
  const what = el('span', '', el('strong', '', step.name), ` ${rest}`);
  return [String(number), what, null, null, null, ...(input.isMetered ? [null] : [])];
} // prettier-ignore

/** What goes in with something else, and is told where that is made ready. */
const BESIDE: ReadonlySet<string> = new Set(['rennet-water', 'salt']);

/** The figures of a step in one line: amounts of this pot first, then temperatures and sizes. */
function figuresText(input: { readonly plan: Plan; readonly step: PlannedStep; readonly told: Told }): string {
  const { step, plan, told } = input;
  const amounts = plan.amounts
    .filter(({ stepId, id }) => stepId === step.id && !BESIDE.has(id))
    .map(({ id, unit, value, also }) => ({
      name: told.say(`plan:amounts.${id}`),
      value: quantityText({ unit, value, also, told }),
    }));
  const figures: readonly Figured[] = [...amounts, ...settingsOf(step, told)];
  const all = figures.map(({ name, value }) => `${name} ${value}`).join('; ');
  return all === '' ? '' : `${all}.`;
}

const milkText = (plan: Plan, { say, write }: Told): string =>
  say('paper:milk', {
    amount: write.litres(plan.setup.milk.volumeL).text,
    species: say(`plan:options.milk.species.${plan.setup.milk.species}`),
    treatment: say(`plan:options.milk.treatment.${plan.setup.milk.treatment}`),
  });

/** Whether anything on this sheet is hot enough that one grown-up alone pours. */
export const isHot = (steps: readonly PlannedStep[]): boolean =>
  steps.some(({ set }) =>
    [set.waterC, set.toC, set.curdTargetC].some((one) => typeof one === 'number' && one >= HOT_C),
  );

function hotWater(steps: readonly PlannedStep[], told: Told): PaperElement | null {
  if (!isHot(steps)) return null;
  return el(
    'p',
    'paper-loud',
    told.say('paper:student.hot', { hands: told.write.degrees(HANDS_C).text }),
    ' ',
    blank('short'),
  );
}

/** What the figures 0 to 4 mean, for every judgement that this make asks for. */
function scale(steps: readonly PlannedStep[], told: Told): PaperElement | null {
  const asked = [...new Set(steps.flatMap(judgementsOf))];
  if (asked.length === 0) return null;
  const lines = asked.map((judgement) => {
    const grades = JUDGEMENT_GRADES[judgement].map((grade, index) => `${index}\u00A0${told.say(`vat:judge.${judgement}.${grade}.name`)}`);
    return el('p', 'paper-seen', el('strong', '', told.say(`record:judgement.${judgement}`)), ` ${grades.join(' · ')}`);
  });
  return el('div', 'paper-scale', lines);
} // prettier-ignore

/** The judgements that a step ends by or asks for. */
export function judgementsOf(step: Pick<PlannedStep, 'until' | 'watch'>): readonly JudgementName[] {
  const ends = step.until.of.flatMap((one) => (one.kind === 'judgement' ? [one.judgement] : []));
  const watched = step.watch.flatMap(({ judgement }) => (judgement === undefined ? [] : [judgement]));
  return [...new Set([...ends, ...watched])];
}
