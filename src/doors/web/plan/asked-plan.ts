/** A plan that somebody asks for in an address: its answers go on the table, its words are told once. */
import { readQuestion } from '../../../exchange/share/question-link.ts';
import type { Say } from '../../../exchange/words.ts';
import type { UnitSystem, Writer } from '../../../exchange/written.ts';
import { InputError, problemText } from '../../../numbers/validity.ts';
import { draftOf } from './draft-of.ts';
import { keepDraft, leftDraft } from './use-draft.ts';

/** What came with the address: put on the table, or why it could not be; null where nothing was asked. */
export interface AskedPlan {
  readonly makeId: string | null;
  /** Units that the address asks for. */
  readonly units: UnitSystem;
  readonly wrong: string | null;
}

/**
 * Takes the question behind the `#`, puts it on the table and takes it out of the address, so that going back does not ask again.
 * @param input.now milliseconds UTC
 */
export function takeAsked(input: {
  readonly units: UnitSystem;
  readonly now: number;
  readonly nameOf: (makeId: string) => string | null;
  readonly say: Say;
  readonly write: Writer;
}): AskedPlan | null {
  const { units, now, nameOf, say, write } = input;
  try {
    const question = readQuestion(location.hash);
    if (question === null) return null;
    const { makeId, answers } = question;
    const name = nameOf(makeId);
    if (name === null) {
      history.replaceState(null, '', location.pathname);
      return { makeId, units, wrong: say('share:askedUnknown', { id: makeId }) };
    }
    const theirs = answers.units === undefined ? units : answers.units === 'us' ? 'us' : 'metric';
    const left = leftDraft(units);
    keepDraft({ ...draftOf({ planned: { makeId, answers, startAt: now }, units: theirs }), clock: left.clock });
    const brought = say('share:asked', { name, milk: write.litres(answers.milk.volumeL).text });
    history.replaceState({ brought }, '', location.pathname);
    return { makeId, units: theirs, wrong: null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    history.replaceState(null, '', location.pathname);
    return { makeId: null, units, wrong: say('share:askedWrong', { why: error.problems.map(problemText).join(' ') }) };
  }
}
