import type { Plugin } from 'vite';
import { calculators } from '../../../exchange/calc/registry.ts';
import { calcSchemas } from '../../../exchange/calc/schema.ts';

/** Where the contract of a sum is written from the schemas that read its input. */
const CONTRACT = /\/src\/exchange\/calc\/schema\.ts$/;

/**
 * Gives the page every sum's input contract as it was written when the page was built: the fields of a sum are read from it, and
 * the page itself has no writer of JSON schemas.
 */
export function withWrittenSums(): Plugin {
  return {
    name: 'vatside-with-written-sums',
    apply: 'build',
    enforce: 'pre',
    transform: {
      filter: { id: CONTRACT },
      handler: () => ({ code: writtenContract(), map: null }),
    },
  };
}

/** A module that stands in for `src/exchange/calc/schema.ts` in the page; what the answer looks like is not asked there. */
export function writtenContract(): string {
  const inputs = Object.fromEntries([...calculators.keys()].map((name) => [name, calcSchemas(name).input]));
  return [
    `import { calculatorNamed } from './answer.ts';`,
    `const INPUTS = ${JSON.stringify(inputs)};`,
    `export function calcSchemas(name) {`,
    `  const { answers, example } = calculatorNamed(name);`,
    `  return { name, answers, example, input: INPUTS[name] };`,
    `}`,
    '',
  ].join('\n');
}
