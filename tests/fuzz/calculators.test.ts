import { describe, expect, it } from 'vitest';
import { calculators, type AnyCalculator } from '../../src/exchange/calc/registry.ts';
import { calcSchemas } from '../../src/exchange/calc/schema.ts';
import { seededRandom } from '../../src/numbers/random.ts';
import { taken } from './complaint.ts';
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

/** The least of ten tries, where the first was slow: another program on the machine is no hang. */
function leastMs(sum: AnyCalculator, input: unknown, firstMs: number): number {
  let least = firstMs;
  for (let i = 0; i < 10 && least > LONGEST_MS; i++) {
    const from = performance.now();
    taken(sum, input);
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
        const { isAnswered, complaint } = taken(sum, input);
        const took = leastMs(sum, input, performance.now() - from);
        if (isAnswered) run.answered++;
        else run.refused++;
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
