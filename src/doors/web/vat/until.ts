import type { Condition } from '../../../make/step.ts';
import type { PlannedStep, Plan } from '../../../make/plan.ts';
import type { Telling } from './said.ts';

/** Until when this step goes on, as a sentence. */
export function untilText(input: {
  readonly step: PlannedStep;
  readonly plan: Plan;
  readonly telling: Telling;
}): string {
  const { step, plan, telling } = input;
  const watched = conditionsShown(step, plan);
  const [only] = watched;
  if (watched.length === 1 && only?.kind === 'time') {
    return telling.say('vat:until.for', { duration: telling.write.duration(only.minutes.value) });
  }
  const words = watched.map((condition) => conditionText(condition, { ...telling, litres: plan.setup.milk.volumeL }));
  const what = words.join(` ${telling.say(step.until.join === 'all' ? 'vat:until.and' : 'vat:until.or')} `);
  return telling.say('vat:until.until', { what });
}

/**
 * The end conditions worth saying: without a meter no pH that nobody can read, and no clock time beside a judgement,
 * because the time is only the expectation and the judgement decides.
 */
export function conditionsShown(step: PlannedStep, plan: Plan): readonly Condition[] {
  const readable = step.until.of.filter((condition) => condition.kind !== 'pH' || plan.setup.pHMeter);
  const decisive = readable.filter((condition) => condition.kind !== 'time');
  return decisive.length > 0 ? decisive : readable;
}

function conditionText(condition: Condition, telling: Telling & { readonly litres: number }): string {
  const { say, write, litres } = telling;
  switch (condition.kind) {
    case 'time':
      return say('vat:until.time', { duration: write.duration(condition.minutes.value) });
    case 'temperature':
      return say('vat:until.temperature', { temperature: write.temperature(condition.atC.value).text });
    case 'pH':
      return say(`vat:until.pH.${condition.sample}`, { pH: write.pH(condition.at.value).text });
    case 'judgement':
      return say(`vat:until.${condition.judgement}.${condition.grade}`);
    case 'flocculation':
      return say('vat:until.flocculation', {
        times: write.number(condition.multiplier.value, condition.multiplier.value % 1 === 0 ? 0 : 1),
      });
    case 'coreTemperature':
      return say('vat:until.core', { temperature: write.degrees(condition.atC.value).text });
    case 'days':
      return say('vat:until.days', { count: condition.days.value });
    case 'moisture':
      return say('vat:until.moisture', { moisture: write.percent(condition.percent.value, 0).text });
    case 'mass':
      return say('vat:until.mass', { mass: write.kilograms(condition.kgPerL.value * litres).text });
    case 'salt':
      return say('vat:until.salt', { salt: write.percent(condition.percent.value, 1).text });
  }
}
