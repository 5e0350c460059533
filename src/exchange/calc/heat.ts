import { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import type { Finding } from '../../science/finding.ts';
import { COAST_S, heaterValidity, heatOffC, heatUpMin, steadyC } from '../../science/heater.ts';
import { vatHeatCapacityKJPerK } from '../../science/vat-liquid.ts';
import { constantLoss, lossCurve } from '../../science/vat.ts';
import { defineCalculator } from './calculator.ts';
import { hotLift, liquid, oddSize, potKg, potMaterial, potOf, roomC } from './pot-fields.ts';

const CONSTANT_LOSS_UP_TO_C = 50; // evaporation makes an open pot's loss grow steeply above: our own choice

/** How long the burner takes, and where to turn it off. */
export const heatCalc = defineCalculator({
  name: 'heat',
  answers: 'How long a pot takes to warm, and where to turn the burner off so that it coasts to the target',
  input: z.strictObject({
    volumeL: z.number().positive(),
    fromC: z.number().min(-1).max(100),
    toC: z.number().min(-1).max(100),
    heaterW: z.number().nonnegative().describe('heat that reaches the pot, or the nameplate with efficiency'),
    liquid: liquid.default('milk'),
    lid: z.boolean().default(false),
    efficiency: z.number().positive().max(1).default(1).describe('share of heaterW that reaches the pot'),
    lossWPerK: z.number().nonnegative().optional().describe('measured loss, then held constant'),
    roomC: roomC.default(20),
    potKg: potKg.optional(),
    potMaterial: potMaterial.default('steel'),
    coastSeconds: z
      .number()
      .min(0)
      .max(1800)
      .default(COAST_S.median)
      .describe('seconds of full heat still to come after turning off, from burner and base'),
  }),
  result: z.strictObject({ minutes: z.number(), heatOffC: z.number() }),
  example: { volumeL: 10, fromC: 6, toC: 37, heaterW: 900 },
  run(input) {
    const { volumeL, fromC, toC, roomC, lid, lossWPerK } = input;
    if (toC <= fromC) {
      throw new InputError([
        {
          code: 'contradiction',
          field: 'toC',
          value: toC,
          unit: '°C',
          expected: `more than fromC, ${fromC} °C`,
          remedy: 'Give a warmer target; how a pot cools is answered by "hold".',
        },
      ]);
    }
    const pot = potOf({ volumeL, volumeField: 'volumeL', potKg: input.potKg, potMaterial: input.potMaterial });
    const loss =
      lossWPerK === undefined
        ? lossCurve({ pot, volumeL, roomC, keeping: lid ? 'lid' : 'open' })
        : constantLoss(lossWPerK);
    const middleC = Math.max((fromC + toC) / 2, 0);
    const heatCapacityKJPerK = vatHeatCapacityKJPerK({ liquid: input.liquid, volumeL, temperatureC: middleC, pot });
    const heaterW = input.heaterW * input.efficiency;
    const asked = { fromC, toC, roomC, heatCapacityKJPerK, heaterW, loss };
    const minutes = heatUpMin(asked);
    if (!Number.isFinite(minutes)) {
      const endC = steadyC({ roomC, heaterW, loss });
      throw new InputError([
        {
          code: 'unreachable',
          field: 'toC',
          value: toC,
          unit: '°C',
          expected: `below ${endC.toFixed(1)} °C, where this heater comes to rest`,
          remedy: 'Use a stronger burner, less milk, a lid or a warmer room.',
        },
      ]);
    }
    const cautions: Finding[] = [
      ...oddSize({ field: 'volumeL', volumeL }),
      ...hotLift({ volumeL, potKg: pot.massKg, temperatureC: toC }),
    ];
    if (toC > (heaterValidity['toC']?.high ?? 98) - 3) {
      cautions.push({
        severity: 'caution',
        code: 'heat-near-boiling',
        fields: { toC },
        source: 'model of liquids below boiling',
      });
    }
    if (lossWPerK !== undefined && toC > CONSTANT_LOSS_UP_TO_C) {
      cautions.push({
        severity: 'caution',
        code: 'heat-constant-loss',
        fields: { toC, lossWPerK },
        source: 'evaporation grows with vapour pressure: film theory, checked with a table of open tanks',
      });
    }
    return {
      result: { minutes, heatOffC: heatOffC({ ...asked, coastS: input.coastSeconds }) },
      cautions,
      assumptions: [
        `liquid: ${input.liquid}`,
        lossWPerK === undefined
          ? `lid: ${lid ? 'on' : 'off'}, still air at 50 % humidity; a draught can double the loss of an open pot`
          : `lossWPerK: ${lossWPerK}, held constant`,
        `efficiency: ${input.efficiency}${input.efficiency === 1 ? ', so heaterW is what reaches the pot (gas keeps 30 to 45 % of its nameplate, electric 75 %, induction 75 to 85 %)' : ''}`,
        `roomC: ${roomC}`,
        `potKg: ${pot.massKg.toFixed(2)}, ${input.potMaterial}`,
        `coastSeconds: ${input.coastSeconds}, a factor 1.8 either way until it is learned`,
        'stirred, so that the pot has one temperature',
      ],
      sources: [
        'energy balance of one lump; losses checked with an engineering table of open tanks (page seen)',
        'Choi and Okos (1986), specific heats, seen at second hand',
        'heat still to come after turning off: our own model',
      ],
    };
  },
});
