import { describe, expect, it } from 'vitest';
import { answer, fieldsOf } from '../../src/exchange/calc/answer.ts';
import { calculators, type AnyCalculator } from '../../src/exchange/calc/registry.ts';
import { calcSchemas } from '../../src/exchange/calc/schema.ts';
import { seededRandom } from '../../src/numbers/random.ts';
import { InputError, type Problem } from '../../src/numbers/validity.ts';
import { randomInput, type Schema } from './inputs.ts';

const INPUTS = 20_000;
const LONGEST_MS = 250;
/** Sums that integrate a whole course take fewer of the inputs, so that the run stays short. */
const FEWER: Readonly<Record<string, number>> = { ripen: 400, 'stretch-water': 400 };

const sums = [...calculators.values()];
const light = sums.filter(({ name }) => FEWER[name] === undefined).length;
const heavy = sums.reduce((all, { name }) => all + (FEWER[name] ?? 0), 0);
const inputsFor = (name: string): number => FEWER[name] ?? Math.ceil((INPUTS - heavy) / light);

interface Run {
  answered: number;
  refused: number;
  readonly milliseconds: number[];
}

/** Every number in a value, with where it stands. */
function* numbersIn(value: unknown, path = ''): Generator<readonly [string, number]> {
  if (typeof value === 'number') yield [path, value];
  else if (typeof value === 'object' && value !== null) {
    for (const [name, each] of Object.entries(value)) yield* numbersIn(each, `${path}.${name}`);
  }
}

/** A clear problem says what would do and what to do about it, and names a field that the giver knows. */
function isClear(sum: AnyCalculator, { code, field, expected, remedy }: Problem): boolean {
  const first = /^[^.[]*/.exec(field)?.[0] ?? '';
  const isKnown = code === 'unknown-field' || field === 'input' || fieldsOf(sum).includes(first);
  return isKnown && expected !== '' && remedy !== '';
}

/** What is wrong with how a sum took an input; null when it answered finitely or refused clearly. */
function complaintOf(sum: AnyCalculator, input: unknown, run: Run): string | null {
  try {
    const out = answer({ name: sum.name, input });
    run.answered++;
    for (const [path, each] of numbersIn(out)) if (!Number.isFinite(each)) return `${path} is ${each}`;
    const issues = sum.result.safeParse(out.result).error?.issues ?? [];
    return issues.length === 0 ? null : `breaks its own schema: ${JSON.stringify(issues[0])}`;
  } catch (error) {
    run.refused++;
    if (!(error instanceof InputError)) return error instanceof Error ? `${error.stack}` : String(error);
    if (error.problems.length === 0) return 'refuses without a problem';
    const unclear = error.problems.find((problem) => !isClear(sum, problem));
    return unclear === undefined ? null : `says too little: ${JSON.stringify(unclear)}`;
  }
}

/** The least of three tries, where the first was slow: another program on the machine is no hang. */
function leastMs(sum: AnyCalculator, input: unknown, firstMs: number): number {
  let least = firstMs;
  for (let i = 0; i < 3 && least > LONGEST_MS; i++) {
    const from = performance.now();
    complaintOf(sum, input, { answered: 0, refused: 0, milliseconds: [] });
    least = Math.min(least, performance.now() - from);
  }
  return least;
}

const runs = new Map<string, Run>();

describe('random inputs', () => {
  it.each(sums.map((sum) => [sum.name, sum] as const))(
    '%s answers finitely or refuses clearly, within a quarter of a second',
    (name, sum) => {
      const schema = calcSchemas(name).input as Schema;
      const random = seededRandom(20261125);
      const run: Run = { answered: 0, refused: 0, milliseconds: [] };
      const faults: string[] = [];
      for (let i = 0; i < inputsFor(name); i++) {
        const input = randomInput(random, { schema, example: sum.example });
        const from = performance.now();
        const complaint = complaintOf(sum, input, run);
        const took = leastMs(sum, input, performance.now() - from);
        run.milliseconds.push(took);
        if (complaint !== null) faults.push(`${JSON.stringify(input)}: ${complaint}`);
        if (took > LONGEST_MS) faults.push(`${JSON.stringify(input)}: took ${Math.round(took)} ms`);
      }
      runs.set(name, run);
      expect(faults.slice(0, 5), `${faults.length} faults`).toEqual([]);
      // A fuzz that never gets past the door would find nothing.
      expect(run.answered / (run.answered + run.refused)).toBeGreaterThan(0.2);
    },
    120_000,
  );

  it('were twenty thousand over all sums', () => {
    const all = [...runs.values()].flatMap(({ milliseconds }) => milliseconds).sort((a, b) => a - b);
    const answered = [...runs.values()].reduce((sum, run) => sum + run.answered, 0);
    const at = (share: number): string => (all[Math.floor(share * (all.length - 1))] ?? 0).toFixed(2);
    console.log(
      `fuzz: ${all.length} inputs over ${runs.size} sums, ${answered} answered; median ${at(0.5)} ms, 99 % within ${at(0.99)} ms, longest ${at(1)} ms`,
    );
    expect(all.length).toBeGreaterThanOrEqual(INPUTS);
  });
});
