/** How the command line says that something is wrong: one line for a slip, a list for bad input, never a stack. */
import { problemText, type InputError } from '../../numbers/validity.ts';
import { EXIT, UsageError, type World } from './world.ts';

/** Problems as the contract's JSON, numbers that JSON cannot hold as null. */
export function errorsJson(error: InputError): string {
  const errors = error.problems.map((problem) => {
    const { code, field, value, expected, remedy } = problem;
    return { code, field, value: value ?? null, expected, message: problemText(problem), remedy };
  });
  return `${JSON.stringify({ errors }, null, 2)}\n`;
}

/** Problems for a person: one each, the flag named beside the field where there is one. */
export function errorsText(input: {
  readonly error: InputError;
  readonly flagOf?: (field: string) => string | undefined;
}): string {
  const { error, flagOf } = input;
  const lines = error.problems.map((problem) => {
    const flag = flagOf?.(problem.field);
    const text = problemText(problem).replace(/confirm it\.$/, `keep it with --confirm ${problem.field}.`);
    return `  ${flag === undefined ? '' : `${flag}: `}${text}`;
  });
  const count = lines.length === 1 ? 'One thing does' : `${lines.length} things do`;
  return `${count} not fit:\n${lines.join('\n')}\n`;
}

export const codeOf = (error: InputError): number => (error.outsideModel ? EXIT.outsideModel : EXIT.badInput);

/** A slip of the command line. */
export function tellUsage(world: World, error: UsageError): number {
  world.err(`vatside: ${error.message}\n`);
  return EXIT.badInput;
}
