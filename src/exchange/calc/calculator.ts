import type { z } from 'zod';
import type { Finding } from '../../science/finding.ts';

/** What every calculator gives back beside its result. */
export interface CalcAnswer<R> {
  readonly result: R;
  readonly cautions: readonly Finding[];
  readonly assumptions: readonly string[];
  readonly sources: readonly string[];
}

/** One sum of the trade: the same schema on the command line, over HTTP and on the Bench screen. */
export interface Calculator<I extends z.ZodType, R extends z.ZodType> {
  readonly name: string;
  /** One line: what it answers. */
  readonly answers: string;
  readonly input: I;
  readonly result: R;
  run(input: z.output<I>): CalcAnswer<z.output<R>>;
  readonly example: z.input<I>;
  /** What it allows may take seconds: a server answers others meanwhile. */
  readonly isLong?: true;
}

/** Names a calculator while keeping its exact types. */
export function defineCalculator<I extends z.ZodType, R extends z.ZodType>(
  calculator: Calculator<I, R>,
): Calculator<I, R> {
  return calculator;
}
