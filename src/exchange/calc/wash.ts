import { z } from 'zod';
import { InputError, type Problem } from '../../numbers/validity.ts';
import type { Finding } from '../../science/finding.ts';
import { litresFromDepthCm } from '../../science/pot.ts';
import { constantLoss, lossCurve } from '../../science/vat.ts';
import {
  ARRIVAL_DROP_C,
  idealWashC,
  lactoseLeft,
  washCourse,
  washWaterL,
  waterCForFullTopUp,
  WASH_MINUTES,
} from '../../science/wash.ts';
import { defineCalculator } from './calculator.ts';
import { hotHands, oddSize, potKg, potOf, roomC } from './pot-fields.ts';

const PORTIONS = 6; // our own choice: small enough that curd never meets much hot water at once
const TOTAL_MIN = WASH_MINUTES.drainMin + WASH_MINUTES.pourMin + WASH_MINUTES.stirMin;

const choose = (field: string, other: string, isBoth: boolean): Problem => ({
  code: isBoth ? 'contradiction' : 'missing',
  field,
  value: undefined,
  expected: `one of ${field} or ${other}`,
  remedy: isBoth ? 'Leave one of them out.' : 'Give one of them.',
});

/** Whey drawn and hot water poured in. */
export const washCalc = defineCalculator({
  name: 'wash',
  answers: 'What the vat comes to when whey is replaced by hot water, or how much water a target needs',
  input: z.strictObject({
    vatL: z.number().positive().describe('curd and whey before drawing'),
    vatC: z.number().min(-1).max(100),
    drawL: z.number().nonnegative().optional(),
    drawCm: z.number().nonnegative().optional(),
    potInsideMm: z.number().min(50).max(3000).optional(),
    waterC: z.number().min(0).max(100).describe('in the kettle'),
    addL: z.number().nonnegative().optional(),
    targetC: z.number().min(0).max(100).optional(),
    lossWPerK: z.number().nonnegative().optional(),
    minutes: z.number().nonnegative().max(600).default(TOTAL_MIN).describe('drawing, pouring and stirring together'),
    roomC: roomC.default(20),
    potKg: potKg.optional(),
    arrivalDropC: z.number().min(0).max(30).default(ARRIVAL_DROP_C.mean),
  }),
  result: z.strictObject({
    finalC: z.number(),
    addL: z.number(),
    drawL: z.number(),
    idealFinalC: z.number(),
    lactoseLeftFraction: z.number(),
    lactoseStrengthFraction: z.number(),
    waterCForFullTopUp: z.number().nullable(),
    portions: z.array(z.strictObject({ pouredL: z.number(), mixC: z.number() })),
  }),
  example: { vatL: 10, vatC: 37, drawL: 3, waterC: 60, addL: 3 },
  run(input) {
    const { vatL, vatC, waterC, targetC, roomC, lossWPerK, minutes, arrivalDropC } = input;
    const problems: Problem[] = [];
    if ((input.drawL === undefined) === (input.drawCm === undefined)) {
      problems.push(choose('drawL', 'drawCm', input.drawL !== undefined));
    }
    if (input.drawCm !== undefined && input.potInsideMm === undefined) {
      problems.push({
        code: 'missing',
        field: 'potInsideMm',
        value: undefined,
        expected: 'the inside diameter of the pot in mm',
        remedy: 'Measure across the pot; a depth of whey needs it to become a volume.',
      });
    }
    if ((input.addL === undefined) === (targetC === undefined)) {
      problems.push(choose('addL', 'targetC', targetC !== undefined));
    }
    if (problems.length > 0) throw new InputError(problems);
    const drawL = input.drawL ?? litresFromDepthCm({ depthCm: input.drawCm ?? 0, insideMm: input.potInsideMm ?? 0 });
    const pot = potOf({ volumeL: vatL, volumeField: 'vatL', potKg: input.potKg, potInsideMm: input.potInsideMm });
    const loss =
      lossWPerK === undefined ? lossCurve({ pot, volumeL: vatL, roomC, keeping: 'open' }) : constantLoss(lossWPerK);
    const scale = minutes / TOTAL_MIN;
    const wash = {
      vatL,
      vatC,
      drawL,
      waterC,
      pot,
      roomC,
      loss,
      arrivalDropC,
      minutes: {
        drainMin: WASH_MINUTES.drainMin * scale,
        pourMin: WASH_MINUTES.pourMin * scale,
        stirMin: WASH_MINUTES.stirMin * scale,
      },
    };
    const addL = input.addL ?? washWaterL({ ...wash, targetC: targetC ?? 0 });
    const { finalC } = washCourse({ ...wash, addL });
    const { portions } = washCourse({ ...wash, addL, portions: PORTIONS });
    const lactose = lactoseLeft({ vatL, drawL, addL });
    const cautions: Finding[] = [
      ...oddSize({ field: 'vatL', volumeL: vatL }),
      ...hotHands({ code: 'hot-water', hotC: waterC }),
    ];
    if (addL > drawL * 1.02 + 0.05) {
      cautions.push({
        severity: 'caution',
        code: 'wash-above-line',
        fields: { addL, drawL },
        source: 'more water than whey was drawn: the pot must have room, and the whey is thinned more',
      });
    }
    return {
      result: {
        finalC,
        addL,
        drawL,
        idealFinalC: idealWashC({ ...wash, addL }),
        lactoseLeftFraction: lactose.leftFraction,
        lactoseStrengthFraction: lactose.strengthFraction,
        waterCForFullTopUp: waterCForFullTopUp({ ...wash, targetC: targetC ?? finalC }),
        portions: addL > 0 ? portions.map(({ pouredL, mixC }) => ({ pouredL, mixC })) : [],
      },
      cautions,
      assumptions: [
        'amounts are of the vat (curd and whey), not shares of the whey alone',
        `minutes: ${minutes} for drawing, pouring and stirring, open pot`,
        `arrivalDropC: ${arrivalDropC}, 1.5 K either way until it is learned`,
        `roomC: ${roomC}`,
        `potKg: ${pot.massKg.toFixed(2)} of steel`,
        lossWPerK === undefined ? 'loss from the size of the pot, still air' : `lossWPerK: ${lossWPerK}`,
        'poured in portions and stirred: stop at the target whatever is left',
      ],
      sources: [
        'heat balance with pot, losses and the drop on arrival',
        'trade check: 30 % of a vat at 37 °C replaced by 60 °C water gives about 42 °C, common practice (no source)',
      ],
    };
  },
});
