/** Questions to the calculators as tests put them: the numbers of a result, or one of them by its path. */
import { answer } from '../src/exchange/calc/answer.ts';

/** The numbers of a result by name. */
export const ask = (name: string, input: unknown): Readonly<Record<string, number>> =>
  answer({ name, input }).result as Readonly<Record<string, number>>;

/** One number of a result: `flocculationMinutes.p50`, `curve.-1.meanC` (the last of the curve). */
export function askFor(path: string, of: { readonly name: string; readonly input: unknown }): number {
  let value: unknown = answer(of).result;
  for (const step of path.split('.')) {
    value = Array.isArray(value) ? (value as unknown[]).at(Number(step)) : (value as Record<string, unknown>)[step];
  }
  return typeof value === 'number' ? value : Number.NaN;
}
