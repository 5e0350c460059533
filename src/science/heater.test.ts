import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../numbers/random.ts';
import { InputError } from '../numbers/validity.ts';
import { bathHeating, metC, type BathHeatingInput } from './heater-bath.ts';
import { fitVat, type VatReading } from './heater-fit.ts';
import { BURNER_W, COAST_S, coastRiseC, heatOffC, heatUpMin, learnCoast, steadyC } from './heater.ts';
import { constantLoss, lossAt, lossCurve, vatRateKPerMin } from './vat.ts';
import { potForMilk } from './pot.ts';

const ten = { fromC: 30, toC: 38, roomC: 20, heatCapacityKJPerK: 41.6, heaterW: 450, loss: constantLoss(3.2) };

describe('warming the vat', () => {
  it('takes the time of the exact solution when the loss is constant', () => {
    const end = 20 + 450 / 3.2;
    const exact = ((41_600 / 3.2) * Math.log((end - 30) / (end - 38))) / 60;
    expect(heatUpMin(ten)).toBeCloseTo(exact, 9);
    expect(heatUpMin({ ...ten, loss: constantLoss(0) })).toBeCloseTo((41_600 * 8) / 450 / 60, 9);
  });

  it('agrees with small steps through the same balance when the loss grows with heat', () => {
    const loss = lossCurve({ pot: potForMilk({ milkL: 10 }), volumeL: 10, roomC: 20, keeping: 'open' });
    let temperatureC = 30;
    let minutes = 0;
    while (temperatureC < 80) {
      temperatureC +=
        0.01 *
        vatRateKPerMin({
          temperatureC,
          roomC: 20,
          heatCapacityKJPerK: 41.6,
          lossWPerK: lossAt(loss, temperatureC),
          heaterW: 1200,
        });
      minutes += 0.01;
    }
    expect(heatUpMin({ ...ten, loss, toC: 80, heaterW: 1200 }) / minutes).toBeCloseTo(1, 3);
  });

  it('takes longer for more milk, a weaker burner and a higher target', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 300, max: 5000, noNaN: true }),
        fc.double({ min: 1.01, max: 3, noNaN: true }),
        (heaterW, more) => {
          const base = heatUpMin({ ...ten, heaterW });
          expect(heatUpMin({ ...ten, heaterW: heaterW * more })).toBeLessThan(base);
          expect(heatUpMin({ ...ten, heaterW, heatCapacityKJPerK: ten.heatCapacityKJPerK * more })).toBeGreaterThan(
            base,
          );
          expect(heatUpMin({ ...ten, heaterW, toC: 38 + more })).toBeGreaterThan(base);
        },
      ),
      { seed: 20261125, numRuns: 100 },
    );
  });

  it('never ends when the room takes all the heat', () => {
    expect(heatUpMin({ ...ten, toC: 80, heaterW: 150 })).toBe(Infinity);
    expect(steadyC({ roomC: 20, heaterW: 160, loss: constantLoss(3.2) })).toBeCloseTo(70, 0);
  });

  it('refuses 37 °F typed as °C only where no milk could be, and names the field', () => {
    expect(() => heatUpMin({ ...ten, toC: 140 })).toThrow(/toC 140 °C/);
  });
});

describe('turning off early', () => {
  it('a medium burner under 10 L goes off about 1.5 K early', () => {
    const off = heatOffC({ ...ten, toC: 37, heaterW: BURNER_W.medium.median });
    expect(37 - off).toBeGreaterThan(1);
    expect(37 - off).toBeLessThan(1.8);
  });

  it('agrees with small steps through a store that fades', () => {
    const coastS = 90;
    const step = 0.5;
    let temperatureC = 30;
    let reaching = 0;
    let peak = 30;
    const off = heatOffC({ ...ten, heaterW: 900, coastS });
    for (let s = 0; s < 6000; s += step) {
      const isOn = peak < off;
      reaching += ((isOn ? 900 : 0) - reaching) * (step / coastS);
      temperatureC += ((reaching - 3.2 * (temperatureC - 20)) * step) / 41_600;
      peak = Math.max(peak, temperatureC);
    }
    expect(peak).toBeCloseTo(38, 1);
  });

  it('coasts further on more power and not at all without a store', () => {
    const base = { heaterW: 900, lossW: 54, heatCapacityKJPerK: 41.6, coastS: 70 };
    expect(coastRiseC({ ...base, heaterW: 1800 })).toBeGreaterThan(coastRiseC(base));
    expect(coastRiseC({ ...base, coastS: 0 })).toBe(0);
    expect(coastRiseC({ ...base, heaterW: 40 })).toBe(0);
  });

  it('learns from one overshoot: towards what was read, and narrower', () => {
    const base = { heaterW: 900, lossW: 54, heatCapacityKJPerK: 41.6 };
    const riseC = coastRiseC({ ...base, coastS: 140 });
    const learned = learnCoast({ ...base, prior: COAST_S, riseC });
    expect(learned.median).toBeGreaterThan(110);
    expect(learned.median).toBeLessThan(140);
    expect(learned.logSd).toBeLessThan(0.5 * COAST_S.logSd);
  });
});

describe('learning a pot and its burner', () => {
  const minutes = [0, 10, 25, 40];
  const truth = { heaterW: 450, lossWPerK: 3.2 };
  const C = 41.6;
  const made = (noise: () => number): VatReading[] => {
    const readings: VatReading[] = [];
    let temperatureC = 32;
    minutes.forEach((minute, i) => {
      const before = readings[i - 1];
      if (before !== undefined) {
        const end = 20 + (before.heaterOn ? truth.heaterW : 0) / truth.lossWPerK;
        temperatureC =
          end + (temperatureC - end) * Math.exp((-truth.lossWPerK * 60 * (minute - before.minute)) / (1000 * C));
      }
      readings.push({ minute, temperatureC, heaterOn: i === 0 });
    });
    return readings.map((reading) => ({ ...reading, temperatureC: reading.temperatureC + noise() }));
  };
  const fit = (readings: VatReading[], more: object = {}): ReturnType<typeof fitVat> =>
    fitVat({ readings, heatCapacityKJPerK: C, roomC: 20, priorLossWPerK: 3.2, thermometerSdC: 0.1, ...more });

  it('gives back the truth from clean readings, even against a wrong prior', () => {
    const result = fit(
      made(() => 0),
      { priorLossWPerK: 4, thermometerSdC: 0.001 },
    );
    expect(result.heaterW).toBeCloseTo(450, 1);
    expect(result.lossWPerK).toBeCloseTo(3.2, 3);
    expect(result.residualC).toBeLessThan(1e-4);
    expect(result.isBothSeen).toBe(true);
  });

  it('recovers 450 W within 13 and 3.2 W/K within 0.25 from readings with 0.1 K noise, and says so itself', () => {
    const random = seededRandom(20261125);
    const results = Array.from({ length: 400 }, () => fit(made(() => 0.1 * random.normal())));
    const spread = (values: number[]): number => {
      const mean = values.reduce((a, b) => a + b, 0) / values.length;
      return Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / values.length);
    };
    const heaters = results.map((r) => r.heaterW ?? 0);
    const losses = results.map((r) => r.lossWPerK);
    expect(spread(heaters)).toBeLessThan(13);
    expect(spread(losses)).toBeLessThan(0.25);
    expect((results[0]?.heaterStandardErrorW ?? 0) / spread(heaters)).toBeGreaterThan(0.8);
    expect((results[0]?.heaterStandardErrorW ?? 0) / spread(heaters)).toBeLessThan(1.25);
  });

  it('keeps to the prior where nothing speaks of the loss, and knows no heater that never ran', () => {
    const heated = fit([
      { minute: 0, temperatureC: 30, heaterOn: true },
      { minute: 10, temperatureC: 36, heaterOn: true },
    ]);
    expect(heated.lossWPerK).toBeCloseTo(3.2, 1);
    expect(heated.lossStandardErrorWPerK).toBeCloseTo(0.96, 1);
    expect(heated.isBothSeen).toBe(false);
    const coasting = fit([
      { minute: 0, temperatureC: 37, heaterOn: false },
      { minute: 60, temperatureC: 34, heaterOn: false },
    ]);
    expect(coasting.heaterW).toBeNull();
    expect(coasting.lossWPerK).toBeGreaterThan(1.9);
    expect(coasting.lossWPerK).toBeLessThan(2.6);
  });

  it('refuses one reading, and minutes that run backwards', () => {
    expect(() => fit([{ minute: 0, temperatureC: 30, heaterOn: true }])).toThrow(InputError);
    const backwards = [
      { minute: 5, temperatureC: 30, heaterOn: true },
      { minute: 1, temperatureC: 31, heaterOn: false },
    ];
    expect(() => fit(backwards)).toThrow(/readings\[1\]\.minute/);
  });
});

describe('water bath', () => {
  const input: BathHeatingInput = {
    milkC: 10,
    bathC: 10,
    toC: 34.5,
    roomC: 20,
    milkKJPerK: 20.6,
    bathKJPerK: 17.5,
    heaterW: 400,
    exchangeWPerK: 34.5,
    milkLossWPerK: 1,
    bathLossWPerK: 1.5,
  };

  it('runs ahead of the milk, the more so the hotter it is driven', () => {
    const mild = bathHeating(input);
    const fierce = bathHeating({ ...input, heaterW: 1500 });
    expect(mild?.milkAtOffC).toBeCloseTo(31.6, 0);
    expect(mild?.bathAtOffC).toBeCloseTo(37.8, 0);
    expect(fierce?.milkAtOffC).toBeLessThan(mild?.milkAtOffC ?? 0);
    expect(fierce?.offMin).toBeLessThan(mild?.offMin ?? 0);
    expect(fierce?.finalC).toBeLessThan(34.5);
    expect(fierce?.finalC).toBeGreaterThan(33);
  });

  it('ends where milk and bath meet', () => {
    expect(metC({ milkC: 32, bathC: 48, milkKJPerK: 20, bathKJPerK: 16 })).toBeCloseTo(39.11, 2);
  });

  it('says when it never gets there', () => {
    expect(bathHeating({ ...input, toC: 90, heaterW: 100 })).toBeNull();
  });
});
