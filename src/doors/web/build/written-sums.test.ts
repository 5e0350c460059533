import { describe, expect, it } from 'vitest';
import { calculators } from '../../../exchange/calc/registry.ts';
import { calcSchemas } from '../../../exchange/calc/schema.ts';
import { writtenContract } from './written-sums.ts';

describe('the page reads the fields of a sum', () => {
  it('from the contract as it was written for every sum when the page was built', () => {
    const [, inputs = ''] = /^const INPUTS = (.+);$/m.exec(writtenContract()) ?? [];
    const written = JSON.parse(inputs) as Readonly<Record<string, unknown>>;
    expect(Object.keys(written)).toEqual([...calculators.keys()]);
    for (const name of calculators.keys())
      expect(written[name]).toEqual(JSON.parse(JSON.stringify(calcSchemas(name).input)));
  });
});
