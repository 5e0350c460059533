import { z } from 'zod';
import type { Finding } from '../../science/finding.ts';
import { fitVat } from '../../science/heater-fit.ts';
import { vatHeatCapacityKJPerK } from '../../science/vat-liquid.ts';
import { lossWPerK } from '../../science/vat.ts';
import { defineCalculator } from './calculator.ts';
import { underContractNames } from './fields.ts';
import { liquid, potKg, potMaterial, roomC, potOf } from './pot-fields.ts';

/** A burner and a pot, learned from a few looks at the thermometer. */
export const vatFitCalc = defineCalculator({
  name: 'vat-fit',
  answers: 'What your burner gives and your pot loses, from a few thermometer readings with the burner on and off',
  input: z.strictObject({
    readings: z
      .array(
        z.strictObject({
          minute: z.number(),
          temperatureC: z.number().min(-1).max(101),
          heaterOn: z.boolean().describe('from this reading until the next'),
        }),
      )
      .min(2),
    volumeL: z.number().positive(),
    roomC,
    lid: z.boolean().default(false),
    liquid: liquid.default('milk'),
    potKg: potKg.optional(),
    potMaterial: potMaterial.default('steel'),
    thermometerErrorC: z.number().min(0.01).max(5).default(0.1).describe('of one reading against the next'),
  }),
  result: z.strictObject({
    lossWPerK: z.number(),
    lossWPerKStandardError: z.number(),
    heaterW: z.number().nullable(),
    heaterWStandardError: z.number().nullable(),
    residualC: z.number(),
  }),
  example: {
    readings: [
      { minute: 0, temperatureC: 30, heaterOn: true },
      { minute: 10, temperatureC: 35.9, heaterOn: false },
      { minute: 25, temperatureC: 34.9, heaterOn: false },
      { minute: 40, temperatureC: 33.9, heaterOn: false },
    ],
    volumeL: 10,
    roomC: 20,
  },
  run(input) {
    const { readings, volumeL, roomC, lid } = input;
    const pot = potOf({ volumeL, volumeField: 'volumeL', potKg: input.potKg, potMaterial: input.potMaterial });
    const middleC = readings.reduce((sum, reading) => sum + reading.temperatureC, 0) / readings.length;
    const temperatureC = Math.min(Math.max(middleC, 2), 98);
    const priorLossWPerK = Math.max(
      lossWPerK({ pot, volumeL, temperatureC, roomC: Math.max(roomC, 0), keeping: lid ? 'lid' : 'open' }),
      0.05,
    );
    const names = { heatCapacityKJPerK: 'volumeL', priorLossWPerK: 'volumeL', thermometerSdC: 'thermometerErrorC' };
    const fit = underContractNames(names, () =>
      fitVat({
        readings,
        heatCapacityKJPerK: vatHeatCapacityKJPerK({ liquid: input.liquid, volumeL, temperatureC, pot }),
        roomC,
        priorLossWPerK,
        thermometerSdC: input.thermometerErrorC,
      }),
    );
    const cautions: Finding[] = [];
    if (!fit.isBothSeen) {
      cautions.push({
        severity: 'caution',
        code: 'fit-leans-on-prior',
        fields: { lossWPerK: fit.lossWPerK, heaterSeen: fit.heaterW === null ? 'no' : 'yes' },
        source: 'an interval with the burner on and one with it off tell the two apart: least squares',
      });
    }
    if (fit.residualC > 3 * input.thermometerErrorC) {
      cautions.push({
        severity: 'caution',
        code: 'fit-does-not-fit',
        fields: { residualC: fit.residualC },
        source: 'residuals above three times the thermometer: stirring, lid or burner changed meanwhile',
      });
    }
    return {
      result: {
        lossWPerK: fit.lossWPerK,
        lossWPerKStandardError: fit.lossStandardErrorWPerK,
        heaterW: fit.heaterW,
        heaterWStandardError: fit.heaterStandardErrorW,
        residualC: fit.residualC,
      },
      cautions,
      assumptions: [
        `lid: ${lid ? 'on' : 'off'}; before the readings its loss was taken as ${priorLossWPerK.toFixed(2)} W/K, 30 % either way`,
        `liquid: ${input.liquid}`,
        `potKg: ${pot.massKg.toFixed(2)}, ${input.potMaterial}`,
        `thermometerErrorC: ${input.thermometerErrorC}`,
        'heater and loss steady over the readings; the heater is what reaches the milk, not its nameplate',
      ],
      sources: [
        'energy balance solved exactly between readings; least squares; where the readings say little of the loss, that of pots of its size counts',
      ],
    };
  },
});
