import { describe, expect, it } from 'vitest';
import { answer } from '../../../exchange/calc/answer.ts';
import { calculators } from '../../../exchange/calc/registry.ts';
import type { Say } from '../../../exchange/words.ts';
import { isRecord } from '../../../make/problems.ts';
import { parseMake } from '../../../make/make.ts';
import ball from '../../../../makes/stretched-ball.json' with { type: 'json' };
import { firstDraft, withFact } from '../plan/draft.ts';
import { planFor } from '../plan/plan-for.ts';
import { planUses } from './plan-uses.ts';

const say: Say = (key) => key;
const carried = (
  sum: string,
  examples: readonly string[] = [],
  given: object = {},
  units: 'metric' | 'us' = 'metric',
) => {
  const example = calculators.get(sum)?.example;
  const input = { ...(isRecord(example) ? example : {}), ...given };
  const { result } = answer({ name: sum, input, say });
  return planUses({ sum, given: input, result, examples, hasOwn: examples.length === 0, units });
};

describe('what a sum carries into a plan', () => {
  it('is a strength with its span from the cup test, and the plan takes it', () => {
    const facts = carried('rennet-test');
    expect(facts.map(({ path }) => path)).toEqual(['rennet.strengthImcuPerMl', 'rennet.testedSpanImcuPerMl.low', 'rennet.testedSpanImcuPerMl.high']); // prettier-ignore
    const draft = facts.reduce(
      (one, { path, text }) => withFact(one, path, text),
      firstDraft({ today: '2026-11-26', makeId: ball.id, units: 'metric' }),
    );
    const { plan } = planFor({ draft, make: parseMake(ball), units: 'metric' });
    expect(plan?.setup.rennet.testedSpanImcuPerMl?.low).toBeLessThan(plan?.setup.rennet.strengthImcuPerMl ?? 0);
  });

  it('is the standardised milk, the learned burner and pot, the carton, the solution', () => {
    const paths = (sum: string): string[] => carried(sum).map(({ path }) => path);
    expect(paths('standardise')).toEqual(['milk.volumeL', 'milk.fatPercent']);
    expect(paths('vat-fit')).toEqual(['pot.heaterW', 'pot.lossWPerK']);
    expect(paths('milk')).toEqual(expect.arrayContaining(['milk.fatPercent', 'milk.species']));
    expect(paths('calcium')).toEqual(['calcium.solutionPercent']);
    expect(paths('scald')).toEqual([]);
  });

  it('leaves the worked example behind: it is nobody’s milk', () => {
    const example = calculators.get('milk')?.example;
    const blanks = Object.keys(isRecord(example) ? example : {});
    expect(carried('milk', blanks)).toEqual([]);
    expect(carried('standardise', ['milkL'])).toEqual([]); // nothing in it is the reader's own
    const own = carried('milk', blanks.filter((path) => path !== 'fatPercent')); // prettier-ignore
    expect(own.map(({ path }) => path)).toEqual(['milk.fatPercent']);
  });

  it('is written in the units that the reader types in', () => {
    const litres = Number(carried('standardise').find(({ path }) => path === 'milk.volumeL')?.text);
    const gallons = Number(carried('standardise', [], {}, 'us').find(({ path }) => path === 'milk.volumeL')?.text);
    expect(gallons).toBeCloseTo(litres / 3.785, 1);
  });
});
