import { z } from 'zod';
import { cheeseThermal, CURD_MOISTURE_PERCENT } from '../../science/cheese-thermal.ts';
import type { Finding } from '../../science/finding.ts';
import { bowlCourse, bowlLoss, bowlWaterKg, minutesUntilCore } from '../../science/stretching-bowl.ts';
import { stretchMixesC, STRETCH_WINDOW, stretchWaterKg } from '../../science/stretching-water.ts';
import { constantLoss } from '../../science/vat.ts';
import { defineCalculator } from './calculator.ts';
import { underContractNames } from './fields.ts';
import { hotHands, roomC } from './pot-fields.ts';

const WINDOW_SOURCE =
  'start 50, aim 55 to 60, warn above 62 °C: university extension and reviews, seen in part; common practice';

/** Hot water for stretching, and how long the heat takes to get inside. */
export const stretchWaterCalc = defineCalculator({
  name: 'stretch-water',
  answers: 'How much hot water a curd needs to stretch, and how long until its pieces are warm inside',
  input: z.strictObject({
    curdKg: z.number().positive(),
    curdC: z.number().min(-1).max(100),
    targetC: z.number().min(0).max(100).describe('of curd and water together'),
    waterC: z.number().min(0).max(100),
    pours: z.number().int().min(1).max(6).default(1).describe('equal; the water of each is drained before the next'),
    moisturePercent: z.number().min(0).max(100).default(CURD_MOISTURE_PERCENT),
    fatPercent: z.number().min(0).max(100).optional(),
    bowlWPerK: z.number().nonnegative().optional().describe('loss of the bowl; from its size where not given'),
    roomC: roomC.default(20),
    pieceMm: z.number().positive().default(15).describe('edge of the cubes'),
  }),
  result: z.strictObject({
    waterKg: z.number().describe('in each pour, from the plain balance'),
    totalWaterKg: z.number(),
    mixC: z.number().describe('after the last pour, even and without losses'),
    mixAfterPoursC: z.array(z.number()),
    realWaterKg: z.number().nullable().describe('in each pour, so that the pieces get there in this bowl'),
    minutesToCore: z.number().nullable(),
    curve: z.array(z.strictObject({ minute: z.number(), waterC: z.number(), meanC: z.number(), coreC: z.number() })),
  }),
  example: { curdKg: 1.2, curdC: 34, targetC: 58, waterC: 80, pours: 2 },
  run(input) {
    const { curdKg, curdC, targetC, waterC, pours, roomC, pieceMm, moisturePercent, fatPercent } = input;
    const thermal = underContractNames({ temperatureC: 'targetC' }, () =>
      cheeseThermal({
        moisturePercent,
        ...(fatPercent === undefined ? {} : { fatPercent }),
        temperatureC: Math.max((curdC + targetC) / 2, 0),
      }),
    );
    const asked = { curdKg, curdC, waterC, pours, curdKJPerKgK: thermal.specificHeatKJPerKgK };
    const waterKg = stretchWaterKg({ ...asked, targetC });
    const mixes = waterKg > 0 ? stretchMixesC({ ...asked, waterKg }) : [curdC];
    const loss =
      input.bowlWPerK === undefined
        ? bowlLoss({ contentsKg: curdKg + Math.max(waterKg, 0.2 * curdKg), roomC })
        : constantLoss(input.bowlWPerK);
    const bowl = { curdKg, curdC, thermal, pieceMm, waterC, pours, roomC, loss };
    const course = waterKg > 0 ? bowlCourse({ ...bowl, waterKg }) : [];
    const toCore = waterKg > 0 ? minutesUntilCore({ course, targetC }) : 0;
    const realWaterKg = waterKg > 0 ? bowlWaterKg({ ...bowl, targetC }) : 0;
    const cautions: Finding[] = hotHands({ code: 'stretch-hands', hotC: Math.max(waterC, targetC) });
    const say = (severity: Finding['severity'], code: string, fields: Finding['fields'], source: string): void => {
      cautions.push({ severity, code, fields, source });
    };
    if (targetC > STRETCH_WINDOW.warnAboveC) say('caution', 'stretch-too-warm', { targetC }, WINDOW_SOURCE);
    if (targetC < STRETCH_WINDOW.startC) say('caution', 'stretch-too-cool', { targetC }, WINDOW_SOURCE);
    if (toCore === null) {
      say('info', 'stretch-core-not-reached', { targetC, pieceMm }, 'conduction into the pieces while the bowl cools');
    }
    return {
      result: {
        waterKg,
        totalWaterKg: waterKg * pours,
        mixC: mixes.at(-1) ?? curdC,
        mixAfterPoursC: mixes,
        realWaterKg,
        minutesToCore: toCore,
        curve: course.map((point) => ({ ...point })),
      },
      cautions,
      assumptions: [
        `pours: ${pours}, equal, three minutes apart, the water of each drained before the next`,
        `moisturePercent: ${moisturePercent}; fatPercent: ${fatPercent ?? 'half of the solids'}`,
        'waterKg is the plain balance without losses; realWaterKg brings the mean of the pieces to the target in the cooling bowl',
        input.bowlWPerK === undefined
          ? 'bowl: open, wide, warmed first; loss from its size'
          : `bowlWPerK: ${input.bowlWPerK}`,
        `pieceMm: ${pieceMm}, cubes kept apart and moved; roomC: ${roomC}`,
      ],
      sources: [
        'heat balance; Choi and Okos (1986), seen at second hand',
        'Çengel, Heat Transfer, Table 4-2 (seen), for conduction into the pieces',
        WINDOW_SOURCE,
      ],
    };
  },
});
