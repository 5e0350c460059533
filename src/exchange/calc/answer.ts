/** One sum, asked and answered: the same envelope on the command line, over HTTP and on the Bench screen. */
import { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import type { Finding, Severity } from '../../science/finding.ts';
import type { Say } from '../words.ts';
import { inputProblems } from './input-problems.ts';
import { calculators, type AnyCalculator } from './registry.ts';

/** A caution as it goes out: its id, how much it weighs, and its words. */
export interface CautionOut {
  readonly id: string;
  readonly severity: Severity;
  readonly text: string;
}

/** What every sum gives back. */
export interface CalcEnvelope {
  readonly name: string;
  readonly result: unknown;
  readonly cautions: readonly CautionOut[];
  readonly assumptions: readonly string[];
  readonly sources: readonly string[];
}

/** A sum's answer before its cautions have words: for a reader whose catalogue is elsewhere. */
export interface BareAnswer {
  readonly name: string;
  readonly result: unknown;
  readonly cautions: readonly Finding[];
  readonly assumptions: readonly string[];
  readonly sources: readonly string[];
}

/**
 * Answers one sum, cautions as codes with their fields.
 * @param input.name name of the sum, as in the contract
 * @param input.input unread JSON
 * @throws InputError with every problem, as `answer`
 */
export function bareAnswer(input: { readonly name: string; readonly input: unknown }): BareAnswer {
  const calculator = calculatorNamed(input.name);
  const parsed = calculator.input.safeParse(input.input);
  if (!parsed.success) {
    const problems = inputProblems({ issues: parsed.error.issues, json: input.input, fields: fieldsOf(calculator) });
    throw new InputError(problems);
  }
  return { name: calculator.name, ...calculator.run(parsed.data) };
}

/**
 * Answers one sum.
 * @param input.name name of the sum, as in the contract
 * @param input.input unread JSON
 * @param input.say the catalogues, for the words of cautions; without them a caution's text is its id
 * @returns the envelope of the contract, numbers unrounded
 * @throws InputError with every problem; `outsideModel` tells what a model cannot answer (exit 3, HTTP 422) from bad
 *   input (exit 2, HTTP 400)
 */
export function answer(input: { readonly name: string; readonly input: unknown; readonly say?: Say }): CalcEnvelope {
  return withWords(bareAnswer(input), input.say ?? ((key) => key.slice(key.indexOf(':') + 1)));
}

/** An answer with the words of its cautions. */
export function withWords({ cautions, ...bare }: BareAnswer, say: Say): CalcEnvelope {
  const { name, result, assumptions, sources } = bare;
  return {
    name,
    result,
    cautions: cautions.map(({ code, severity, fields }) => ({
      id: code,
      severity,
      text: say(`findings:${code}`, fields),
    })),
    assumptions,
    sources,
  };
}

/** @throws InputError naming the sums there are */
export function calculatorNamed(name: string): AnyCalculator {
  const calculator = calculators.get(name);
  if (calculator !== undefined) return calculator;
  throw new InputError([
    {
      code: 'unknown-choice',
      field: 'name',
      value: name,
      expected: `one of ${[...calculators.keys()].join(', ')}`,
      remedy: 'Choose a sum from the list.',
    },
  ]);
}

/** Names of the fields on the first level of a sum's input. */
export function fieldsOf(calculator: AnyCalculator): readonly string[] {
  return calculator.input instanceof z.ZodObject ? Object.keys(calculator.input.shape) : [];
}
