/** What a batch's record says for weighing causes: its history, what was wrong with the cheese, answers to questions. */
import type { Answered } from '../forecast/explain.ts';
import { FAULTS, type Fault, type FaultsSaid } from '../forecast/explain-faults.ts';
import { QUESTIONS } from '../forecast/explain-questions.ts';
import type { History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import type { BatchRecord } from '../record/batch-record.ts';
import { historyOf } from './history.ts';
import { planOfRecord } from './record-plan.ts';
import type { Say } from './words.ts';

/** Mishaps noted at the vat that are faults of the make. */
const FAULT_OF_MISHAP: Readonly<Record<string, Fault>> = {
  noSet: 'never-set',
  raggedBreak: 'soft-set',
  shatters: 'shattered',
  tears: 'tears',
  runs: 'runs',
  tooSalty: 'too-salty',
};
/** Faults seen while the make runs: a note at the vat may name them. "Dry" and "wet" there are of hands and cloths. */
const AT_THE_VAT: ReadonlySet<Fault> = new Set(['never-set', 'soft-set', 'shattered', 'tears', 'runs']);
const FAULT_QUESTION = 'fault.';

export interface ExplainAsked {
  readonly plan: Plan;
  readonly history: History;
  readonly faults: FaultsSaid | null;
  readonly answers: Answered;
}

/** A make with nothing noted for so long is seen as given up at its last note: our own choice. */
const STILL_WAITED_FOR_MS = 12 * 3_600_000;

/**
 * @param input.nowAt  milliseconds UTC, of a make that may still be waited for: then the wait counts. Left out, or where the make
 *   was closed or nothing was noted for twelve hours, it is seen as stopped at its last note
 * @throws InputError where the record does not hold the make and the answers it began with
 */
export function explainAsked(input: {
  readonly record: BatchRecord;
  readonly say: Say;
  readonly nowAt?: number;
}): ExplainAsked {
  const { record, say, nowAt } = input;
  const lastAt = lastOfMake(record);
  const isWaitedFor = record.finishedAt === null && nowAt !== undefined && nowAt > lastAt && nowAt - lastAt < STILL_WAITED_FOR_MS; // prettier-ignore
  return {
    plan: planOfRecord({ record }),
    history: historyOf({ record, nowAt: isWaitedFor ? nowAt : lastAt }),
    faults: faultsSaid({ record, say }),
    answers: answersOf(record),
  };
}

/** Kinds that are written after a make, however long after. */
const AFTERWARDS: ReadonlySet<string> = new Set([
  'tasted',
  'answered',
  'nextTime',
  'noted',
  'labelled',
  'batchFinished',
]);

function lastOfMake(record: BatchRecord): number {
  const times = record.entries.filter(({ kind, retracted }) => !AFTERWARDS.has(kind) && retracted === null);
  return times.reduce((latest, { at }) => Math.max(latest, at), record.zeroAt);
}

/**
 * What the maker said of the outcome: ticked, noted as a mishap, or in their own words of closing and tasting.
 * @returns null where nothing at all was said of it
 */
export function faultsSaid(input: { readonly record: BatchRecord; readonly say: Say }): FaultsSaid | null {
  const { record, say } = input;
  const ticked = new Map<Fault, boolean>();
  for (const { question, answer } of record.answered) {
    const fault = FAULTS.find((one) => `${FAULT_QUESTION}${one}` === question);
    if (fault !== undefined && answer !== 'not-sure') ticked.set(fault, answer === 'yes');
  }
  const ofCheese = [
    ...record.tasted.map(({ words }) => words),
    ...record.finished.flatMap(({ note }) => (note === undefined ? [] : [note])),
  ];
  const ofMake = [...ofCheese, ...record.noted.map(({ text }) => text)];
  const happened = new Set(record.mishaps.map(({ what }) => FAULT_OF_MISHAP[what]));
  const said = FAULTS.flatMap((fault) => {
    const texts = AT_THE_VAT.has(fault) ? ofMake : ofCheese;
    const isWritten = happened.has(fault) || texts.some((text) => says({ text, fault, say }));
    const isThere = ticked.get(fault) ?? isWritten;
    return isThere || ticked.has(fault) ? [{ fault, isThere }] : [];
  });
  const isAnything =
    said.length > 0 || record.tasted.length > 0 || record.finished.some(({ note }) => (note ?? '') !== '');
  return isAnything ? said : null;
}

/** The event body that ticks or unticks a fault. */
export const faultTicked = (fault: Fault, isThere: boolean): { question: string; answer: 'yes' | 'no' } => ({
  question: `${FAULT_QUESTION}${fault}`,
  answer: isThere ? 'yes' : 'no',
});

/** Words before a fault that may turn it round: so many. */
const LOOKED_BACK = 3;

function says(input: { readonly text: string; readonly fault: Fault; readonly say: Say }): boolean {
  const text = input.text.toLowerCase().replaceAll('’', "'");
  const phrases = input.say(`explain:saidAs.${input.fault}`).split('|');
  const turned = new Set(input.say('explain:notSaid').split('|'));
  return phrases.some((phrase) => {
    for (let at = text.indexOf(phrase); at >= 0; at = text.indexOf(phrase, at + 1)) {
      const isWhole = !isLetter(text[at - 1]) && !isLetter(text[at + phrase.length]);
      const before =
        text
          .slice(0, at)
          .split(/[.!?;]/)
          .at(-1) ?? '';
      const near = before.split(/[^\p{L}']+/u).filter((word) => word !== '').slice(-LOOKED_BACK); // prettier-ignore
      if (isWhole && !near.some((word) => turned.has(word))) return true;
    }
    return false;
  });
}

const isLetter = (sign: string | undefined): boolean => sign !== undefined && /\p{L}/u.test(sign);

function answersOf(record: BatchRecord): Answered {
  const last = new Map(record.answered.map(({ question, answer }) => [question, answer]));
  return [...last].flatMap(([question, answer]) =>
    QUESTIONS.some(({ id }) => id === question) ? [{ question, answer }] : [],
  );
}
