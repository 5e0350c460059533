import type { Forecast } from '../../../forecast/forecast.ts';
import type { JudgementName } from '../../../make/judgement.ts';
import type { Standing } from './current-step.ts';
import type { Page } from './vat-pages.tsx';
import type { Telling } from './said.ts';

/** A reading worth taking now: why, in a line, and the page that takes it. */
export interface InvitationView {
  readonly text: string;
  /** Null where the card itself has the button. */
  readonly label: string | null;
  readonly page: Page;
}

const ROUNDED_TO_MIN = 5;

/** The one reading that would change when the running step is ended; null where none would. */
export function invitationView(input: {
  readonly forecast: Forecast | null;
  readonly standing: Standing;
  /** The judgement that the card already offers to test. */
  readonly tested: JudgementName | null;
  readonly telling: Telling;
}): InvitationView | null {
  const { forecast, standing, tested, telling } = input;
  const invitation = forecast?.invitation ?? null;
  if (invitation === null || standing.stage !== 'running' || standing.step?.id !== invitation.stepId) return null;
  const { say, write } = telling;
  const rounded = (minutes: number): string =>
    write.duration(Math.max(Math.round(minutes / ROUNDED_TO_MIN), 1) * ROUNDED_TO_MIN);
  const { quantity, sample, judgement, spanMin, thenMin } = invitation;
  const what = judgement ?? `${quantity ?? 'pH'}.${sample ?? 'curd'}`;
  return {
    text: say('vat:invite.why', {
      what: say(`vat:invite.what.${what}`),
      span: rounded(spanMin),
      left: rounded(thenMin),
    }),
    label: judgement === undefined ? say('vat:invite.read') : judgement === tested ? null : say('vat:look.test'),
    page: judgement === undefined ? { at: 'pad', only: quantity } : { at: 'judge', judgement },
  };
}
