/** Whether a make is on course, in words: what it comes to, and why. */
import type { CourseReason, OnCourse } from '../forecast/on-course.ts';
import type { Plan } from '../make/plan.ts';
import { chanceText, whenText, type AdviceTelling } from './chance-told.ts';

export interface CourseTold {
  readonly text: string;
  /** Null where there is nothing to explain. */
  readonly because: string | null;
}

/** The course sentence in the maker's terms: the consequence first, then the reason. */
export function courseTold(course: OnCourse, plan: Plan, telling: AdviceTelling): CourseTold {
  const { say, write } = telling;
  const { state, aim } = course;
  const because = course.because === null ? null : becauseTold(course, course.because, telling);
  if (state === 'off' && aim !== null) {
    const wanted = plan.make.aims[aim.index];
    const values = { chance: chanceText(aim.chance, say), low: write.number(wanted?.low ?? 0, 1), high: write.number(wanted?.high ?? 0, 1) }; // prettier-ignore
    const text = Number.isFinite(aim.atMin) ? say('advice:course.off', { ...values, by: whenText(aim.atMin, telling) }) : say('advice:course.offOpen', values); // prettier-ignore
    return { text, because };
  }
  const step = plan.steps.find((one) => one.id === course.stepId)?.done ?? '';
  const at = (minute: number): string => (Number.isFinite(minute) ? whenText(minute, telling) : '');
  return {
    text: say(`advice:course.${state}`, { step, now: at(course.nowMin), planned: at(course.plannedMin) }),
    because,
  };
}

function becauseTold(
  { state, nowMin, plannedMin }: OnCourse,
  because: CourseReason,
  { say, write }: AdviceTelling,
): string {
  switch (because.code) {
    case 'begun':
      return say(because.minutes > 0 ? 'advice:because.begunLater' : 'advice:because.begunSooner', { minutes: write.duration(Math.abs(because.minutes)) }); // prettier-ignore
    case 'hot-spell':
    case 'cold-spell':
      return say(`advice:because.${because.code}`, { temperature: write.degrees(because.temperatureC).text, minutes: write.duration(because.minutes) }); // prettier-ignore
    case 'no-heat':
      return say('advice:because.no-heat', { minutes: write.duration(because.minutes) });
    case 'dose':
      return say('advice:because.dose', { percent: Math.round(because.fractionOfPlan * 100), ingredient: say(`record:ingredient.${because.ingredient}`) }); // prettier-ignore
    default: {
      const isOff = state === 'off' && because.code === 'acid' && !(Math.abs(nowMin - plannedMin) >= SHIFT_MIN);
      return isOff
        ? say('advice:because.acidOff')
        : say(`advice:because.${because.code}${nowMin < plannedMin ? 'Fast' : 'Slow'}`);
    }
  }
}

const SHIFT_MIN = 10; // as in `forecast/on-course.ts`
