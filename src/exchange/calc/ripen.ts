import { z } from 'zod';
import { InputError, outside, type Problem } from '../../numbers/validity.ts';
import { pHBand, ripenEnsemble, timeBand, type PHReading } from '../../science/acidification-ensemble.ts';
import { ripenValidity } from '../../science/acidification-make.ts';
import { orderProblems, type AcidMake } from '../../science/acidification-schedule.ts';
import { exchangePerHour, SALT_FACTOR } from '../../science/acidification.ts';
import {
  CULTURE_FORMS,
  CULTURE_KINDS,
  CULTURES,
  doseValidity,
  type CultureDose,
  type CultureForm,
} from '../../science/culture.ts';
import type { Finding } from '../../science/finding.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges } from './fields.ts';
import { MILK_SOURCES, milkOf, milkSchema } from './milk-fields.ts';

const CUBE_MM = 10;
const TARGETS = [5.2];
const CURVE_POINTS = 120;
const MEASURED_PH_SD = 0.03; // a kitchen meter after calibration: our own
const UNKNOWN_PH_SD = 0.05; // between milks of one species: Mahmood and Usman (2010), 0.02 to 0.15, table seen
const SLOW_PH = 5.4; // of the slow acid caution
const SLOW_MINUTES = 480; // common practice (no source): pH 5.4 within 6 to 8 hours
const UNLIKELY_RANK = 0.005; // outside the 99 % band
const FEW_MEMBERS = 50; // our own: below this the band is rough

const minute = z.number().nonnegative().max(100_000);
const orNull = z.number().nullable();

/** pH over a make, as an ensemble. */
export const ripenCalc = defineCalculator({
  name: 'ripen',
  answers: 'How the pH of milk and curd falls, when it reaches a target, and what readings say about it',
  input: z.strictObject({
    culture: z.strictObject({
      kind: z.enum(CULTURE_KINDS),
      packetFraction: z.number().positive().optional().describe("1 = the packet's stated dose for this much milk"),
      percentBulk: z.number().positive().max(100).optional(),
      form: z.enum(CULTURE_FORMS).optional(),
    }),
    temperatureProfile: z
      .array(z.strictObject({ minute, temperatureC: z.number().min(-1).max(101) }))
      .min(1)
      .max(500),
    milk: milkSchema.default({ species: 'cow' }),
    pH0: z.number().min(0).max(14).optional().describe('of the milk before the culture'),
    cutMinute: minute.optional(),
    cubeMm: z.number().min(1).max(200).default(CUBE_MM),
    wash: z
      .strictObject({
        minute,
        drawFraction: z.number().min(0).max(1).describe('of the free whey'),
        waterFraction: z.number().min(0).max(2).describe('litres per litre of milk'),
      })
      .optional(),
    drainMinute: minute.optional(),
    saltMinute: minute.optional(),
    minutes: z.number().positive().max(100_000),
    targets: z.array(z.number().min(0).max(14)).max(20).default(TARGETS),
    readings: z
      .array(
        z.strictObject({ minute, pH: z.number().min(0).max(14), sample: z.enum(['milk', 'whey', 'curd']).optional() }),
      )
      .max(100)
      .default([]),
    members: z.int().min(20).max(4000).default(500),
    seed: z.int().min(0).max(4_294_967_295).default(1),
  }),
  result: z.strictObject({
    curve: z.array(z.strictObject({ minute: z.number(), pH: z.number(), p5: z.number(), p95: z.number() })),
    minutesToPH: z.record(
      z.string(),
      z.strictObject({ p5: orNull, p50: orNull, p95: orNull, probability: z.number() }),
    ),
  }),
  isLong: true,
  example: {
    culture: { kind: 'thermophilic', packetFraction: 1 },
    temperatureProfile: [{ minute: 0, temperatureC: 37 }],
    cutMinute: 105,
    wash: { minute: 150, drawFraction: 0.3, waterFraction: 0.3 },
    drainMinute: 200,
    minutes: 420,
    targets: [6, 5.2],
    readings: [{ minute: 90, pH: 6.5 }],
  },
  run(input) {
    const { culture, cubeMm, minutes, members, seed, targets } = input;
    const { composition, assumptions } = milkOf({ milk: input.milk, prefix: 'milk.' });
    const startPH = input.pH0 ?? composition.pH;
    const isSaltShy = CULTURES[culture.kind].temperatureMinC >= 18;
    const make: AcidMake = {
      minutes,
      temperatureProfile: input.temperatureProfile,
      ...(input.cutMinute === undefined ? {} : { cutMinute: input.cutMinute }),
      ...(input.wash === undefined ? {} : { wash: input.wash }),
      ...(input.drainMinute === undefined ? {} : { drainMinute: input.drainMinute }),
      ...(input.saltMinute === undefined ? {} : { saltMinute: input.saltMinute }),
      saltFactor: isSaltShy ? SALT_FACTOR.thermophilic : SALT_FACTOR.mesophilic,
    };
    const dose: CultureDose =
      culture.packetFraction === undefined
        ? { percentBulk: culture.percentBulk ?? Number.NaN }
        : { packetFraction: culture.packetFraction };
    const form: CultureForm = culture.form ?? (culture.packetFraction === undefined ? 'bulk' : 'freeze-dried');
    const readings = input.readings.map((reading): PHReading => ({
      ...reading,
      sample: reading.sample ?? usualSample(make, reading.minute),
    }));
    const problems = [...doseProblems(culture), ...rangeProblems(input, startPH), ...orderProblems(make)];
    problems.push(...readingProblems(readings, make));
    if (problems.length > 0) throw new InputError(problems);

    const ensemble = ripenEnsemble({
      make,
      composition,
      kind: culture.kind,
      form,
      dose,
      startPH,
      startPHSd: input.pH0 === undefined && input.milk.pH === undefined ? UNKNOWN_PH_SD : MEASURED_PH_SD,
      exchangePerHour: exchangePerHour(cubeMm),
      readings,
      members,
      seed,
    });
    const nowMinute = Math.max(0, ...readings.map((reading) => reading.minute));
    const bands = targets.map((targetPH) => ({ targetPH, band: timeBand({ ensemble, targetPH, nowMinute }) }));
    const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
    return {
      result: {
        curve: curvePoints(ensemble.schedule.minute).map((step) => {
          const { p5, p50, p95 } = pHBand({ ensemble, step });
          return { minute: ensemble.schedule.minute[step] ?? 0, pH: p50, p5, p95 };
        }),
        minutesToPH: Object.fromEntries(
          bands.map(({ targetPH, band: { p5, p50, p95, probability } }) => [
            String(targetPH),
            { p5: finite(p5), p50: finite(p50), p95: finite(p95), probability },
          ]),
        ),
      },
      cautions: [
        ...nearEdges({ validity: ripenValidity, values: { startPH: input.pH0 }, names: { startPH: 'pH0' } }),
        ...slowAcid(timeBand({ ensemble, targetPH: SLOW_PH, nowMinute }).p50, minutes),
        ...readings.flatMap((reading, i) => unlikely(reading, ensemble.readingRanks[i] ?? 0.5)),
        ...(readings.length > 0 && ensemble.effectiveMembers < FEW_MEMBERS ? [few(ensemble.effectiveMembers)] : []),
        ...(make.drainMinute !== undefined && !readings.some((reading) => reading.sample === 'curd') ? [UNREAD] : []),
      ],
      assumptions: [
        ...assumptions,
        ...(input.pH0 === undefined ? [`pH0: ${startPH.toFixed(2)}, that of the milk`] : []),
        ...(culture.form === undefined ? [`form of the culture: ${form}`] : []),
        culture.packetFraction === undefined
          ? 'bulk starter: 10 million cells per mL of milk for each percent, and 0.04 pH of its own acid'
          : 'packet: 5 million cells per mL of milk at its stated dose; a factor of 2 either way',
        ...(make.cutMinute === undefined ? [] : [`cubes of ${cubeMm} mm; a tenth of the culture leaves with the whey`]),
        ...(make.saltMinute === undefined ? [] : [`salt slows the culture to ${make.saltFactor} of its speed`]),
        "the serum in the curd shrinks to 0.14 of the milk's volume at draining and 0.06 afterwards, in proportion to casein",
        `${members} members, seed ${seed}; targets ${targets.join(', ')}`,
      ],
      sources: [
        ...MILK_SOURCES,
        'Rosso et al. (1995) Appl. Environ. Microbiol. 61:610, growth over temperature and pH, first page seen',
        'Baranyi and Roberts (1994), lag, from memory',
        'rates and errors: our own fit to 16 published sourings (published/acidification.csv)',
      ],
    };
  },
});

/** What a meter most likely stood in: milk, then whey, then curd. */
const usualSample = (make: AcidMake, at: number): PHReading['sample'] =>
  at >= (make.drainMinute ?? Infinity) ? 'curd' : at >= (make.cutMinute ?? Infinity) ? 'whey' : 'milk';

function curvePoints(minutes: Float64Array): number[] {
  const stride = Math.max(1, Math.ceil((minutes.length - 1) / CURVE_POINTS));
  const points: number[] = [];
  for (let i = 0; i < minutes.length - 1; i += stride) points.push(i);
  points.push(minutes.length - 1);
  return points;
}

function doseProblems(culture: { packetFraction?: number | undefined; percentBulk?: number | undefined }): Problem[] {
  const { packetFraction, percentBulk } = culture;
  if ((packetFraction === undefined) === (percentBulk === undefined)) {
    return [
      {
        code: packetFraction === undefined ? 'missing' : 'contradiction',
        field: 'culture.packetFraction',
        value: packetFraction,
        expected: 'one of culture.packetFraction or culture.percentBulk',
        remedy: packetFraction === undefined ? 'Give one of them.' : 'Leave one of them out.',
      },
    ];
  }
  return outside(doseValidity, { packetFraction, percentBulk }).map((problem) => ({
    ...problem,
    field: `culture.${problem.field}`,
  }));
}

function rangeProblems(
  input: { minutes: number; temperatureProfile: readonly { temperatureC: number }[]; targets: readonly number[] },
  startPH: number,
): Problem[] {
  const renamed = (problem: Problem, field: string): Problem => ({ ...problem, field });
  return [
    ...outside(ripenValidity, { minutes: input.minutes }),
    ...outside(ripenValidity, { startPH }).map((problem) => renamed(problem, 'pH0')),
    ...input.temperatureProfile.flatMap(({ temperatureC }, i) =>
      outside(ripenValidity, { temperatureC }).map((p) => renamed(p, `temperatureProfile[${i}].temperatureC`)),
    ),
  ];
}

function readingProblems(readings: readonly PHReading[], make: AcidMake): Problem[] {
  return readings.flatMap((reading, i): Problem[] => {
    const usual = usualSample(make, reading.minute);
    const isOdd =
      usual === 'milk'
        ? reading.sample !== 'milk'
        : usual === 'curd'
          ? reading.sample !== 'curd'
          : reading.sample === 'milk';
    const at = `readings[${i}]`;
    const problem = { code: 'contradiction' as const, remedy: 'Check the minute of the reading and of the step.' };
    return [
      ...(reading.minute > make.minutes
        ? [{ ...problem, field: `${at}.minute`, value: reading.minute, expected: `at most minutes (${make.minutes})` }]
        : []),
      ...(isOdd
        ? [{ ...problem, field: `${at}.sample`, value: reading.sample, expected: `a sample of ${usual} then` }]
        : []),
    ];
  });
}

const UNREAD: Finding = {
  severity: 'info',
  code: 'ripen-curd-unread',
  fields: {},
  source: 'published makes, our own comparison: early readings do not tell how fast drained curd will go',
};

const few = (effectiveMembers: number): Finding => ({
  severity: 'caution',
  code: 'ripen-few-members',
  fields: { effectiveMembers },
  source: 'our own rule',
});

function unlikely(reading: PHReading, rank: number): Finding[] {
  if (rank > UNLIKELY_RANK && rank < 1 - UNLIKELY_RANK) return [];
  const { minute, pH } = reading;
  return [{ severity: 'caution', code: 'ripen-reading-unlikely', fields: { minute, pH }, source: 'our own rule' }];
}

function slowAcid(p50: number, minutes: number): Finding[] {
  if (!(p50 > SLOW_MINUTES) || minutes <= SLOW_MINUTES) return [];
  return [
    {
      severity: 'caution',
      code: 'plan-slow-acid',
      fields: { medianHours: Math.min(p50, minutes) / 60 },
      source: 'common practice (no source): pH 5.4 within 6 to 8 hours of the culture',
    },
  ];
}
