import { z } from 'zod';
import { milkComposition, milkDensityKernel, MILK_SPECIES } from '../../science/milk.ts';
import {
  CURD_MOISTURE_ERROR,
  STIRRING,
  syneresisRatePerMin,
  syneresisValidity,
  WHEY_END_FRACTION,
  WHEY_FAMILIES,
  wheyEndFractionFor,
  wheyFractionAfter,
} from '../../science/syneresis.ts';
import { curdBasis, curdMoistureKernel, wheyLPerLMilk } from '../../science/syneresis-balance.ts';
import { InputError, outside } from '../../numbers/validity.ts';
import { vatRecovery } from '../../science/yield-families.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges, underContractNames } from './fields.ts';

const LONGEST_CURVE = 60;
const Z95 = 1.645;

const milkInput = z.strictObject({
  species: z.enum(MILK_SPECIES).default('cow'),
  fatPercent: z.number().optional(),
  proteinPercent: z.number().optional(),
  caseinPercent: z.number().optional(),
  lactosePercent: z.number().optional(),
  pH: z.number().optional(),
  temperatureC: z.number().optional(),
});
const banded = z.strictObject({ p5: z.number(), p50: z.number(), p95: z.number() });

/** How much whey has left and how moist the curd is, minute by minute after cutting. */
export const wheyCalc = defineCalculator({
  name: 'whey',
  answers: 'How much whey has left the curd, and how moist it is, after cutting',
  input: z.strictObject({
    milkL: z.number().positive(),
    cubeMm: z.number().positive(),
    temperatureProfile: z
      .array(z.strictObject({ minute: z.number(), temperatureC: z.number().min(-1).max(101) }))
      .min(1),
    pH: z.number().min(0).max(14).describe('of the curd'),
    minutes: z.number().positive(),
    stirred: z.enum(STIRRING).default('gentle'),
    milk: milkInput.default({ species: 'cow' }),
    family: z.enum([...WHEY_FAMILIES, 'whey']).default('stretched'),
  }),
  result: z.strictObject({
    curve: z.array(z.strictObject({ minute: z.number(), curdMoisturePercent: banded, wheyL: banded })),
  }),
  example: {
    milkL: 12,
    cubeMm: 15,
    temperatureProfile: [
      { minute: 0, temperatureC: 37 },
      { minute: 30, temperatureC: 41 },
    ],
    pH: 6.3,
    minutes: 60,
  },
  run(input) {
    const { cubeMm, pH, minutes, stirred, family } = input;
    const profile = [...input.temperatureProfile].sort((a, b) => a.minute - b.minute);
    const problems = [
      ...outside(syneresisValidity, { cubeMm, pH, minutes }),
      ...profile.flatMap(({ temperatureC }, index) =>
        outside(syneresisValidity, { temperatureC }).map((problem) => ({
          ...problem,
          field: `temperatureProfile[${index}].temperatureC`,
        })),
      ),
    ];
    if (family === 'whey') {
      problems.push({
        code: 'outside-validity',
        field: 'family',
        value: family,
        expected: WHEY_FAMILIES.join(', '),
        remedy: 'Curd set by heat and acid drains by another law; choose a rennet family, or weigh what drains.',
        source: 'syneresis of rennet curd',
      });
    }
    if (problems.length > 0 || family === 'whey') throw new InputError(problems);
    const { fatPercent, proteinPercent, caseinPercent, lactosePercent, species } = input.milk;
    const known = Object.entries({ fatPercent, proteinPercent, caseinPercent, lactosePercent });
    const milk = underContractNames(Object.fromEntries(known.map(([field]) => [field, `milk.${field}`])), () =>
      milkComposition({ species, ...Object.fromEntries(known.filter(([, value]) => value !== undefined)) }),
    );
    const basis = curdBasis(milk, vatRecovery(family));
    const endAt = (shift: number): number =>
      wheyEndFractionFor({ wheyEndFraction: WHEY_END_FRACTION[family] + shift, gelSolidsKg: basis.gelSolidsKg });
    const endShift = Z95 * CURD_MOISTURE_ERROR.wheyEndFractionSd;
    const slow = Math.exp(-Z95 * CURD_MOISTURE_ERROR.rateLnSd);
    const density = milkDensityKernel({ ...milk, temperatureC: 32 }) / 1000;

    /** Middle, slow, fast, early end, late end. */
    const cases = [
      { rate: 1, end: endAt(0) },
      { rate: slow, end: endAt(0) },
      { rate: 1 / slow, end: endAt(0) },
      { rate: 1, end: endAt(-endShift) },
      { rate: 1, end: endAt(endShift) },
    ];
    let whey = cases.map(() => 0);
    const pointAt = (minute: number) => {
      const share = (whey[0] ?? 0) / endAt(0);
      const moisture = whey.map((fraction) => curdMoistureKernel(basis, fraction));
      const litres = whey.map(
        (fraction) => input.milkL * wheyLPerLMilk({ wheyFraction: fraction, milkDensityKgPerL: density }),
      );
      const least = CURD_MOISTURE_ERROR.halfWidthPoints * share;
      const m = around(moisture, least);
      const l = around(litres, 0);
      return {
        minute,
        curdMoisturePercent: { ...m, p5: Math.max(m.p5, 0), p95: Math.min(m.p95, milk.waterPercent) },
        wheyL: { ...l, p5: Math.max(l.p5, 0) },
      };
    };
    const every = Math.max(1, Math.ceil(minutes / LONGEST_CURVE));
    const curve = [pointAt(0)];
    for (let minute = 0; minute < minutes;) {
      const step = Math.min(1, minutes - minute);
      const temperatureC = temperatureAt(profile, minute + step / 2);
      const rate = syneresisRatePerMin({ temperatureC, pH, cubeMm, stirring: stirred });
      whey = whey.map((wheyFraction, index) => {
        const one = cases[index] ?? { rate: 1, end: 0 };
        return wheyFractionAfter({
          wheyFraction,
          wheyEndFraction: one.end,
          ratePerMin: rate * one.rate,
          minutes: step,
        });
      });
      minute += step;
      if (minute >= minutes || Math.round(minute) % every === 0) curve.push(pointAt(minute));
    }
    return {
      result: { curve },
      cautions: [
        ...nearEdges({ validity: syneresisValidity, values: { cubeMm, pH }, names: {} }),
        {
          severity: 'info' as const,
          code: 'curd-moisture-rough',
          fields: { halfWidthPoints: CURD_MOISTURE_ERROR.halfWidthPoints },
          source: 'our own statement: no published curd-moisture curve with numbers was found',
        },
      ],
      assumptions: [
        `stirred: ${stirred}`,
        `family: ${family}; at rest ${WHEY_END_FRACTION[family]} of the milk's mass has left as whey (our own choice)`,
        `milk: ${species}, fat ${milk.fatPercent.toFixed(2)} %, casein ${milk.caseinPercent.toFixed(2)} %`,
        'the pH stays as given; temperatures change evenly between the points given',
        `band at least ±${CURD_MOISTURE_ERROR.halfWidthPoints} moisture points in drained curd, until fitted to your own whey volumes`,
      ],
      sources: [
        'Huber et al. (2001) Milchwissenschaft 56:549, activation energy, abstract seen',
        'Castillo et al. (2000) Milchwissenschaft 55:566, first order, abstract seen',
        'rate, effects of size, pH and stirring, and end: our own choice',
      ],
    };
  },
});

/** Middle of five cases with the two kinds of error added as independent, at least `least` either way. */
function around(values: readonly number[], least: number): { p5: number; p50: number; p95: number } {
  const [middle = 0, slow = 0, fast = 0, early = 0, late = 0] = values;
  const down = Math.hypot(Math.min(slow, fast) - middle, Math.min(early, late) - middle);
  const up = Math.hypot(Math.max(slow, fast) - middle, Math.max(early, late) - middle);
  return { p5: middle - Math.max(down, least), p50: middle, p95: middle + Math.max(up, least) };
}

function temperatureAt(profile: readonly { minute: number; temperatureC: number }[], minute: number): number {
  const after = profile.findIndex((point) => point.minute > minute);
  if (after === 0) return profile[0]?.temperatureC ?? 0;
  const b = after === -1 ? undefined : profile[after];
  const a = after === -1 ? profile.at(-1) : profile[after - 1];
  if (a === undefined) return 0;
  if (b === undefined) return a.temperatureC;
  return a.temperatureC + ((b.temperatureC - a.temperatureC) * (minute - a.minute)) / (b.minute - a.minute);
}
