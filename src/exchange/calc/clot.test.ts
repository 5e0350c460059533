import { describe, expect, it } from 'vitest';
import { InputError } from '../../numbers/validity.ts';
import { clotCalc } from './clot.ts';
import { cutTimeCalc } from './cut-time.ts';
import { rennetTestCalc } from './rennet-test.ts';

const clot = (input: unknown) => clotCalc.run(clotCalc.input.parse(input));

describe('calc clot', () => {
  it('answers its own example in the shape it promises', () => {
    const { result } = clot(clotCalc.example);
    expect(clotCalc.result.parse(result)).toEqual(result);
    const { p5, p50, p95 } = result.flocculationMinutes;
    expect(p5).toBeLessThan(p50);
    expect(p50).toBeLessThan(p95);
  });

  it('echoes every default it took', () => {
    const { assumptions } = clot({ doseIMCUPerL: 45, temperatureC: 36, pH: 6.5 });
    expect(assumptions.join('\n')).toMatch(/calcium: 0 [\s\S]*pasteurised[\s\S]*cow[\s\S]*own factor not known/);
  });

  it('refuses UHT milk as outside the model, and 37 °F typed as °C under its field name', () => {
    expect(() => clot({ doseIMCUPerL: 45, temperatureC: 36, pH: 6.5, heatTreatment: 'uht' })).toThrow('acid and heat');
    try {
      clot({ doseIMCUPerL: 1000, temperatureC: 98.6, pH: 6.5 });
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      if (!(error instanceof InputError)) return;
      expect(error.outsideModel).toBe(true);
      expect(error.problems.map((each) => each.field)).toEqual(['doseIMCUPerL', 'temperatureC']);
    }
  });

  it('says so near the edge of what was measured', () => {
    const { cautions } = clot({ doseIMCUPerL: 45, temperatureC: 45.5, pH: 6.5 });
    expect(cautions.map((each) => each.code)).toEqual(['near-edge-of-validity']);
    expect(cautions[0]?.fields['field']).toBe('temperatureC');
  });

  it('warns of high-heat and of homogenised milk', () => {
    const { cautions } = clot({
      doseIMCUPerL: 45,
      temperatureC: 36,
      pH: 6.5,
      heatTreatment: 'high-heat',
      homogenised: true,
    });
    expect(cautions.map((each) => each.code)).toEqual(['clot-high-heat', 'clot-homogenised']);
  });
});

describe('calc cut-time', () => {
  it('multiplies flocculation time, with the error of the eye', () => {
    const { result } = cutTimeCalc.run(cutTimeCalc.input.parse(cutTimeCalc.example));
    expect(result).toEqual({ cutMinutesAfterRennet: 39, span: { p5: 36, p95: 42 } });
    expect(cutTimeCalc.result.parse(result)).toEqual(result);
  });

  it('refuses a multiplier of 20 under its own name', () => {
    expect(() => cutTimeCalc.run({ flocculationMinutes: 13, multiplier: 20, errorMinutes: 1 })).toThrow('multiplier');
    expect(() => cutTimeCalc.run({ flocculationMinutes: 300, multiplier: 3, errorMinutes: 1 })).toThrow(
      'flocculationMinutes',
    );
  });
});

describe('calc rennet-test', () => {
  it('answers its own example in the shape it promises', () => {
    const { result } = rennetTestCalc.run(rennetTestCalc.input.parse(rennetTestCalc.example));
    expect(rennetTestCalc.result.parse(result)).toEqual(result);
    expect(result.makesCurd).toBe('yes');
    expect(result.strengthIMCUPerML.p50).toBeGreaterThan(100);
    expect(result.strengthIMCUPerML.p50).toBeLessThan(300);
  });

  it('blames the milk as well where the rennet looks weak', () => {
    const { result, cautions } = rennetTestCalc.run({
      milkML: 200,
      rennetML: 0.2,
      temperatureC: 32,
      flocculationMinutes: 25,
      pH: 6.65,
    });
    expect(result.makesCurd).toBe('weak');
    expect(cautions.map((each) => each.code)).toEqual(['rennet-weak-or-milk']);
  });

  it('asks for millilitres or drops under the names of the form', () => {
    expect(() => rennetTestCalc.run({ milkML: 200, temperatureC: 32, flocculationMinutes: 14, pH: 6.65 })).toThrow(
      'rennetML is missing',
    );
  });
});
