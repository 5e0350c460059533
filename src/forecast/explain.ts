import { bestApart, type Apart } from './explain-apart.ts';
import type { Clue, ClueAbout } from './explain-clue.ts';
import { answerLogLikelihood, bestQuestion, QUESTIONS, type CauseAnswer } from './explain-questions.ts';
import { weighCauses, type Hypothesis, type WeighInput, type Weighing } from './explain-run.ts';
import { MODEL_VERSION } from './simulate.ts';

/** What may have gone wrong in a make, as far as its record tells. */
export interface Explanation {
  readonly seed: number;
  readonly members: number;
  readonly modelVersion: string;
  readonly verdict: Verdict;
  /** All causes and "nothing unusual", likeliest first; causes that leave the same record behind stand together. */
  readonly ranked: readonly Ranked[];
  /** The question whose answer would tell most; null where none is worth asking. */
  readonly question: { readonly id: string; readonly bits: number } | null;
  /** The reading that was not taken and would best have told the first two causes apart. */
  readonly apart: (Apart & { readonly between: readonly [string, string] }) | null;
  /** The one change to make next time, by the cause it answers; null where too little is sure. */
  readonly change: string | null;
}

/**
 * `nothing`: "nothing unusual" is at least as likely as all causes together, and no fault was said. `cannot`: the record cannot
 * tell, the first cause is not past `PERHAPS`, or not likelier than nothing unusual, which accounts for no fault. `perhaps` and `likely` above that. Our own rule.
 */
export type Verdict = 'nothing' | 'cannot' | 'perhaps' | 'likely';
const NOTHING = 0.5;
const PERHAPS = 0.35;
const LIKELY = 0.7;

/** One line of the ranking: a cause, a family of causes, or "nothing unusual". */
export interface Ranked {
  /** Id of the cause or the family; `nothing` for nothing unusual. */
  readonly id: string;
  readonly kind: 'cause' | 'family' | 'nothing';
  readonly probability: number;
  /** The causes in it, likeliest first; empty for nothing unusual. */
  readonly causes: readonly { readonly id: string; readonly probability: number }[];
  /** What was noted and moved it most, against nothing unusual; strongest first. */
  readonly speaksFor: readonly Evidence[];
  readonly speaksAgainst: readonly Evidence[];
}

/** One clue and how it moved a cause. */
export interface Evidence {
  readonly about: ClueAbout;
  /** How many times likelier what was noted is with the cause (for) or without it (against); above 1. */
  readonly times: number;
  /** What was foreseen of it with nothing unusual, in the unit noted, 9 times in 10; null where it was no number. */
  readonly foreseen: { readonly p5: number; readonly p50: number; readonly p95: number } | null;
}

export type Answered = readonly { readonly question: string; readonly answer: CauseAnswer }[];

/** Evidence that moves a cause by less than this is not told: our own choice. */
const LEAST_TIMES = 1.3;
const MOST_TOLD = { for: 4, against: 2 } as const;
const Z95 = 1.645;

/**
 * What may have gone wrong: every cause that this make could have had, and "nothing unusual", weighed by how well each accounts
 * for the record: readings, judgements, how long steps took, what went in, and what was said of the cheese.
 *
 * @param input.plan  as the batch followed it
 * @param input.history  the whole record, in elapsed minutes
 * @param input.faults  what was said of the outcome
 * @param input.answers  answers to questions asked before
 * @returns ranking with probabilities (they add up to 1), evidence, the next question, the telling reading, one change
 * Valid: as the models; sizes and rates of causes are our own choice (`causes*.ts`).
 * Uncertainty: that is what it states; how often the true cause is found is in `docs/explain.md`.
 * @source weights by Bayes' rule; evidence by assumed density filtering over the ensemble (`explain-weigh.ts`)
 */
export function explain(input: WeighInput & { readonly answers?: Answered }): Explanation {
  return ranking(weighCauses(input), input.answers ?? []);
}

/** The same from a record already weighed: an answer to a question changes only this. */
export function ranking(weighing: Weighing, answers: Answered): Explanation {
  const { hypotheses, clues } = weighing;
  const probabilities = posterior(hypotheses, answers);
  const [usual] = hypotheses;
  const groups = new Map<string, { kind: Ranked['kind']; at: number[] }>();
  for (const [at, { cause }] of hypotheses.entries()) {
    const id = cause?.family ?? cause?.id ?? 'nothing';
    const kind = cause === null ? 'nothing' : cause.family === undefined ? 'cause' : 'family';
    groups.set(id, { kind, at: [...(groups.get(id)?.at ?? []), at] });
  }
  const of = (at: number): number => probabilities[at] ?? 0;
  const ranked = [...groups]
    .map(([id, { kind, at }]) => {
      const likeliest = [...at].sort((a, b) => of(b) - of(a));
      const best = hypotheses[likeliest[0] ?? 0];
      const evidence = usual === undefined || best === undefined ? [] : evidenceOf({ clues, usual, best });
      return {
        id,
        kind,
        probability: at.reduce((sum, one) => sum + of(one), 0),
        causes: likeliest.flatMap((one) => {
          const { cause } = hypotheses[one] ?? { cause: null };
          return cause === null ? [] : [{ id: cause.id, probability: of(one) }];
        }),
        speaksFor: told(evidence, 1).slice(0, MOST_TOLD.for),
        speaksAgainst: told(evidence, -1).slice(0, MOST_TOLD.against),
      };
    })
    .sort((a, b) => b.probability - a.probability);
  const isFaulty = clues.some(({ about }) => about.kind === 'fault' && about.isThere);
  const verdict = verdictOf(ranked, isFaulty);
  const byCause = new Map(hypotheses.map(({ cause }, at) => [cause?.id ?? null, of(at)]));
  const [first] = ranked.filter(({ kind }) => kind !== 'nothing');
  return {
    seed: weighing.seed,
    members: weighing.members,
    modelVersion: MODEL_VERSION,
    verdict,
    ranked,
    question: bestQuestion({ probabilities: byCause, asked: new Set(answers.map(({ question }) => question)) }),
    apart: apartOf(weighing, byCause),
    change: verdict === 'perhaps' || verdict === 'likely' ? (first?.causes[0]?.id ?? null) : null,
  };
}

/** Bayes' rule over all hypotheses, answers included. */
function posterior(hypotheses: readonly Hypothesis[], answers: Answered): number[] {
  const logs = hypotheses.map(({ cause, prior, logEvidence }) =>
    answers.reduce(
      (sum, { question: id, answer }) => {
        const question = QUESTIONS.find((one) => one.id === id);
        return question === undefined ? sum : sum + answerLogLikelihood({ question, answer, cause: cause?.id ?? null });
      },
      Math.log(prior) + logEvidence,
    ),
  );
  const highest = Math.max(...logs);
  const total = logs.reduce((sum, log) => sum + Math.exp(log - highest), 0);
  return logs.map((log) => Math.exp(log - highest) / total);
}

function verdictOf(ranked: readonly Ranked[], isFaulty: boolean): Verdict {
  const nothing = ranked.find(({ kind }) => kind === 'nothing')?.probability ?? 0;
  const first = ranked.find(({ kind }) => kind !== 'nothing')?.probability ?? 0;
  if (nothing >= NOTHING) return isFaulty ? 'cannot' : 'nothing';
  if (first < PERHAPS || first < nothing) return 'cannot';
  return first >= LIKELY ? 'likely' : 'perhaps';
}

interface Moved extends Evidence {
  readonly log: number;
}

function evidenceOf(input: { clues: readonly Clue[]; usual: Hypothesis; best: Hypothesis }): Moved[] {
  return input.clues.map(({ about, shown }, at) => {
    const [usual, best] = [input.usual.weighed[at], input.best.weighed[at]];
    const log = (best?.logLikelihood ?? 0) - (usual?.logLikelihood ?? 0);
    const back = (value: number): number => (shown === 'exponential' ? Math.exp(value) : value);
    const isNumber = about.kind === 'reading' || about.kind === 'lasted';
    const foreseen =
      usual === undefined || !isNumber
        ? null
        : { p5: back(usual.mean - Z95 * usual.sd), p50: back(usual.mean), p95: back(usual.mean + Z95 * usual.sd) };
    return { about, times: Math.exp(Math.abs(log)), foreseen, log };
  });
}

/** Evidence on one side, strongest first. */
const told = (evidence: readonly Moved[], side: 1 | -1): Evidence[] =>
  evidence
    .filter(({ log, times }) => log * side > 0 && times >= LEAST_TIMES)
    .sort((a, b) => b.times - a.times)
    .map(({ about, times, foreseen }) => ({ about, times, foreseen }));

/** The reading that tells the two likeliest apart, be one of them nothing unusual. */
function apartOf(weighing: Weighing, probabilities: ReadonlyMap<string | null, number>): Explanation['apart'] {
  const { hypotheses, missing } = weighing;
  const [first, second] = [...hypotheses].sort(
    (a, b) => (probabilities.get(b.cause?.id ?? null) ?? 0) - (probabilities.get(a.cause?.id ?? null) ?? 0),
  );
  if (first === undefined || second === undefined) return null;
  const apart = bestApart({ missing, first: first.missing, second: second.missing });
  return apart === null ? null : { ...apart, between: [first.cause?.id ?? 'nothing', second.cause?.id ?? 'nothing'] };
}
