import { silenceOf } from '../../../exchange/silence.ts';
import { historyOf } from '../../../exchange/history.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import { onCourse } from '../../../forecast/on-course.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { standingOf } from '../vat/current-step.ts';
import type { Telling } from '../vat/said.ts';

const MINUTE_MS = 60_000;
/** A start or a step put off by this much is worth an edge; our own choice. */
const WORTH_SAYING_MS = 5 * MINUTE_MS;

/** How a pot stands: plain, worth a look (an edge), or in trouble (filled); always with its words. */
export interface PotState {
  readonly form: 'plain' | 'watch' | 'act';
  readonly text: string;
}

/** The state words of one pot. */
export function potState(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly planned: Forecast | null;
  readonly failed: string | null;
  readonly nowAt: number;
  readonly telling: Telling;
}): PotState {
  const { record, plan, forecast, planned, nowAt, telling } = input;
  const { say, write } = telling;
  const joined = joinedState(record, telling);
  if (joined !== null) return joined;
  const { stage } = standingOf({ record, plan });
  if (stage === 'closed') return { form: 'plain', text: say('pots:state.closed') };
  if (stage === 'finishing') return { form: 'plain', text: say('pots:state.finishing') };
  if (stage === 'get-ready') {
    const at = write.clock(record.zeroAt);
    return nowAt - record.zeroAt > WORTH_SAYING_MS
      ? { form: 'watch', text: say('pots:state.shouldBegin', { at }) }
      : { form: 'plain', text: say('pots:state.notYet', { at }) };
  }
  const silence = silenceOf({ record, steps: plan.steps, nowAt });
  if (silence !== null) return { form: 'watch', text: say('pots:state.silent', { at: write.clock(silence.sinceAt) }) };
  if (forecast === null) return input.failed === null ? { form: 'plain', text: say('pots:state.working') } : { form: 'watch', text: say('pots:state.failed') }; // prettier-ignore
  const course = onCourse({ plan, history: historyOf({ record, nowAt }), forecast, planned });
  const minutes = write.duration(Math.abs(Math.round(course.nowMin - course.plannedMin)));
  switch (course.state) {
    case 'off':
      return { form: 'act', text: say('pots:state.off') };
    case 'late':
      return { form: 'watch', text: say('pots:state.late', { minutes }) };
    case 'early':
      return { form: 'watch', text: say('pots:state.early', { minutes }) };
    case 'too-little':
      return { form: 'plain', text: say('pots:state.running') };
    case 'on-course':
      return { form: 'plain', text: say('pots:state.onCourse') };
  }
}

/** What joining did to it: the giver is over, the taker's forecast is no longer exact. */
function joinedState(record: BatchRecord, { say, write }: Telling): PotState | null {
  const last = record.joined.at(-1);
  if (last === undefined) return null;
  const values = { pot: last.name, at: write.clock(last.at) };
  return last.way === 'gave'
    ? { form: 'plain', text: say('pots:state.joinedInto', values) }
    : { form: 'watch', text: say('pots:state.joinedFrom', values) };
}
