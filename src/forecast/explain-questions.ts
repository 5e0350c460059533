/**
 * Questions that a maker can answer afterwards with yes or no, and how often the answer is yes with each cause: the answer
 * becomes evidence like a reading. All shares are our own choice.
 */
export interface CauseQuestion {
  /** Stable id; its words are `explain:question.<id>`. */
  readonly id: string;
  /** How often the answer is yes where the cause is at work, by cause. */
  readonly yes: Readonly<Record<string, number>>;
  /** How often it is yes with any other cause, or none. */
  readonly otherwise: number;
}

export const ANSWERS = ['yes', 'no', 'not-sure'] as const;
export type CauseAnswer = (typeof ANSWERS)[number];

export const QUESTIONS: readonly CauseQuestion[] = [
  { id: 'tap-water', yes: { 'rennet-lost-in-water': 0.95 }, otherwise: 0.3 },
  { id: 'rennet-age', yes: { 'rennet-old': 0.85 }, otherwise: 0.2 },
  { id: 'rennet-measure', yes: { 'rennet-double': 0.6 }, otherwise: 0.1 },
  { id: 'packet-age', yes: { 'culture-old': 0.85 }, otherwise: 0.15 },
  { id: 'packet-share', yes: { 'culture-too-little': 0.8, 'culture-too-much': 0.6 }, otherwise: 0.2 },
  { id: 'packet-new', yes: { 'culture-slow': 0.7, phage: 0.15 }, otherwise: 0.25 },
  { id: 'same-culture', yes: { phage: 0.9 }, otherwise: 0.5 },
  { id: 'calcium-in', yes: { 'calcium-forgotten': 0.8 }, otherwise: 0.05 },
  { id: 'homogenised', yes: { 'milk-homogenised': 0.9 }, otherwise: 0.1 },
  { id: 'long-life', yes: { 'milk-overheated': 0.8 }, otherwise: 0.1 },
  { id: 'treated-cow', yes: { antibiotic: 0.5, 'milk-high-pH': 0.4 }, otherwise: 0.03 },
  { id: 'old-milk', yes: { 'milk-sour': 0.75 }, otherwise: 0.1 },
  { id: 'late-lactation', yes: { 'milk-low-casein': 0.6, 'milk-high-pH': 0.6 }, otherwise: 0.15 },
  { id: 'ice-water-high', yes: { 'thermometer-high': 0.9 }, otherwise: 0.06 },
  { id: 'ice-water-low', yes: { 'thermometer-low': 0.9 }, otherwise: 0.06 },
  { id: 'buffers', yes: { 'meter-high': 0.15, 'meter-low': 0.15 }, otherwise: 0.6 },
  { id: 'stood-cold', yes: { 'vat-cold': 0.7, 'rest-cold': 0.8 }, otherwise: 0.15 },
  { id: 'stood-hot', yes: { 'vat-hot': 0.7 }, otherwise: 0.1 },
  { id: 'wash-by-eye', yes: { 'washed-too-much': 0.7, 'washed-too-little': 0.7, 'wash-too-hot': 0.5 }, otherwise: 0.2 },
  { id: 'stretch-water-cooled', yes: { 'stretch-water-cool': 0.85 }, otherwise: 0.2 },
  { id: 'stretch-water-boiling', yes: { 'stretch-water-hot': 0.85 }, otherwise: 0.1 },
  { id: 'brine-weighed', yes: { 'brine-weak': 0.2, 'brine-strong': 0.2 }, otherwise: 0.65 },
  { id: 'brine-in-the-cold', yes: { 'brine-warm': 0.1 }, otherwise: 0.75 },
];

/** How an answer weighs for a cause (logarithm); `null` is "nothing unusual". */
export function answerLogLikelihood(input: {
  readonly question: CauseQuestion;
  readonly answer: CauseAnswer;
  readonly cause: string | null;
}): number {
  const { question, answer, cause } = input;
  if (answer === 'not-sure') return 0;
  const yes = yesShare(question, cause);
  return Math.log(answer === 'yes' ? yes : 1 - yes);
}

const yesShare = (question: CauseQuestion, cause: string | null): number =>
  (cause === null ? undefined : question.yes[cause]) ?? question.otherwise;

/** A question that is expected to tell less than this is not worth asking [bit]: our own choice. */
const LEAST_BITS = 0.02;

/**
 * The question whose answer is expected to tell most.
 * @param input.probabilities  of each cause (`null` is "nothing unusual"), adding up to 1
 * @param input.asked  ids already answered
 * @returns the question and its expected information [bit]; null where none is worth asking
 */
export function bestQuestion(input: {
  readonly probabilities: ReadonlyMap<string | null, number>;
  readonly asked: ReadonlySet<string>;
}): { readonly id: string; readonly bits: number } | null {
  const open = QUESTIONS.filter(({ id, yes }) => {
    return !input.asked.has(id) && Object.keys(yes).some((cause) => (input.probabilities.get(cause) ?? 0) > 0);
  });
  const ranked = open
    .map((question) => ({ id: question.id, bits: expectedBits(question, input.probabilities) }))
    .sort((a, b) => b.bits - a.bits);
  const [best] = ranked;
  return best !== undefined && best.bits >= LEAST_BITS ? best : null;
}

/** Entropy of the answer less what is left of it once the cause is known. */
function expectedBits(question: CauseQuestion, probabilities: ReadonlyMap<string | null, number>): number {
  let yes = 0;
  let left = 0;
  for (const [cause, probability] of probabilities) {
    const share = yesShare(question, cause);
    yes += probability * share;
    left += probability * entropy(share);
  }
  return entropy(yes) - left;
}

const entropy = (share: number): number =>
  share <= 0 || share >= 1 ? 0 : -(share * Math.log2(share) + (1 - share) * Math.log2(1 - share));
