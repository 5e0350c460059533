import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { marginOn, NAME_STANDARDS, nameVerdicts } from './yield-names.ts';

const verdict = (id: string, moisturePercent: number, fatInDryMatterPercent: number) => {
  const fatPercent = (fatInDryMatterPercent * (100 - moisturePercent)) / 100;
  const found = nameVerdicts({ moisturePercent, fatPercent }).find((each) => each.standard.id === id);
  if (found === undefined) throw new Error(`${id} is no standard`);
  return found;
};
const names = (moisturePercent: number, fatInDryMatterPercent: number): string[] =>
  nameVerdicts({ moisturePercent, fatPercent: (fatInDryMatterPercent * (100 - moisturePercent)) / 100 })
    .filter((each) => each.meets)
    .map((each) => each.standard.id);

describe('names by composition', () => {
  it('change from low-moisture to full at 52 % moisture, and to part-skim below 45 % fat in dry matter', () => {
    expect(names(52, 46)).toContain('low-moisture-mozzarella');
    expect(names(52, 46)).not.toContain('mozzarella');
    expect(names(52.1, 46)).toContain('mozzarella');
    expect(names(60.1, 46)).not.toContain('mozzarella');
    expect(names(54, 44.9)).toContain('part-skim-mozzarella');
    expect(names(54, 45.01)).not.toContain('part-skim-mozzarella');
    expect(names(48, 35)).toContain('low-moisture-part-skim-mozzarella');
  });

  it('give the margin to the nearest limit, and how much a missed one is missed by', () => {
    const met = verdict('mozzarella', 54, 48);
    expect(met.meets).toBe(true);
    expect(marginOn(met, ['moisture'])).toBeCloseTo(2, 9);
    expect(marginOn(met, ['fatInDryMatter'])).toBeCloseTo(3, 9);
    expect(met.marginPoints).toBeCloseTo(2, 9);
    expect(marginOn(met, ['moistureInFatFree'])).toBeNull();
    const missed = verdict('cheddar', 41, 52);
    expect(missed.meets).toBe(false);
    expect(missed.marginPoints).toBeCloseTo(-2, 9);
  });

  it('take fat of the cheese itself for cottage, cream and neufchatel', () => {
    expect(names(79, 20)).toContain('cottage'); // 4.2 % fat
    expect(names(79, 18)).not.toContain('cottage');
    expect(names(79.9, 2)).toContain('dry-curd-cottage');
    expect(names(54, 73)).toContain('cream-cheese'); // 33.6 % fat
    expect(names(62, 60)).toContain('neufchatel'); // 22.8 % fat
    expect(names(54, 73)).not.toContain('neufchatel');
  });

  it('ask more dry matter of a fatter cheese where Codex does, and none of one leaner than its leanest', () => {
    expect(names(47, 47.9)).not.toContain('codex-cheddar'); // 53 % dry matter where 57 is asked
    expect(names(43, 47.9)).toContain('codex-cheddar');
    expect(names(43, 48)).not.toContain('codex-cheddar');
    expect(names(30, 21)).not.toContain('codex-cheddar');
    expect(verdict('codex-gouda', 44, 50).standard.unconfirmed).toBe(true);
  });

  it('always give one fat class of the old general standard, and at least one of firmness', () => {
    for (const fat of [5, 10, 24.9, 25, 44, 45, 59, 60, 70]) {
      expect(names(50, fat).filter((id) => /^codex-(?:high|full|medium|low)-fat$|^codex-skim$/.test(id))).toHaveLength(
        1,
      );
      expect(
        names(50, fat).filter((id) => /^codex-(?:extra-hard|hard|semi-hard|semi-soft|soft)$/.test(id)).length,
      ).toBeGreaterThan(0);
    }
  });

  it('are met exactly where no margin is negative, but for limits that must not be touched', () => {
    const percent = fc.double({ min: 0, max: 90, noNaN: true });
    fc.assert(
      fc.property(percent, percent, (moisturePercent, share) => {
        const fatPercent = ((100 - moisturePercent) * share) / 100;
        for (const each of nameVerdicts({ moisturePercent, fatPercent })) {
          if (each.meets) expect(each.marginPoints).toBeGreaterThanOrEqual(0);
          else expect(each.marginPoints).toBeLessThanOrEqual(0);
        }
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it('each have an id of their own, a rule, a source and something to be judged by; what is from memory says so', () => {
    const ids = NAME_STANDARDS.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBeGreaterThan(50);
    for (const { id, rule, source, limits, drySteps = [], unconfirmed } of NAME_STANDARDS) {
      expect(rule, id).not.toBe('');
      expect(limits.length + drySteps.length, id).toBeGreaterThan(0);
      expect(unconfirmed === true, id).toBe(source.startsWith('from memory'));
    }
  });
});
