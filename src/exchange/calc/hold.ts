import { z } from 'zod';
import { keepWarm } from '../../science/hold.ts';
import { constantLoss } from '../../science/vat.ts';
import { defineCalculator } from './calculator.ts';
import { liquid, oddSize, potKg, potOf, roomC } from './pot-fields.ts';

/** Where milk ends that is kept warm. */
export const holdCalc = defineCalculator({
  name: 'hold',
  answers: 'How warm milk stays over hours, by how it is kept, and when to top up the sink',
  input: z.strictObject({
    volumeL: z.number().positive(),
    atC: z.number().min(-1).max(100),
    minutes: z.number().nonnegative(),
    roomC,
    how: z.enum(['open', 'lid', 'towels', 'sink', 'oven']),
    sinkL: z.number().positive().optional(),
    sinkC: z.number().min(0).max(100).optional(),
    liquid: liquid.default('milk'),
    lossWPerK: z.number().nonnegative().optional().describe('measured loss, then held constant; not for a sink'),
    potKg: potKg.optional(),
  }),
  result: z.strictObject({
    endC: z.number(),
    curve: z.array(z.strictObject({ minute: z.number(), temperatureC: z.number() })),
    topUps: z.array(z.strictObject({ minute: z.number(), waterL: z.number(), waterC: z.number() })),
    oneKelvinDownMinutes: z.number().nullable(),
  }),
  example: { volumeL: 10, atC: 37, minutes: 180, roomC: 20, how: 'towels' },
  run(input) {
    const { volumeL, atC, minutes, roomC, how, sinkL, sinkC, lossWPerK } = input;
    const pot = potOf({ volumeL, volumeField: 'volumeL', potKg: input.potKg });
    const hold = keepWarm({
      pot,
      volumeL,
      liquid: input.liquid,
      atC,
      minutes,
      roomC,
      keeping: how,
      ...(sinkL === undefined ? {} : { sinkL }),
      ...(sinkC === undefined ? {} : { sinkC }),
      ...(lossWPerK === undefined ? {} : { loss: constantLoss(lossWPerK) }),
    });
    const drifts = Math.abs(hold.endC - atC) > 2;
    return {
      result: {
        endC: hold.endC,
        curve: hold.curve.map(({ minute, temperatureC }) => ({ minute, temperatureC })),
        topUps: [...hold.topUps],
        oneKelvinDownMinutes: hold.oneKelvinDownMin,
      },
      cautions: [
        ...oddSize({ field: 'volumeL', volumeL }),
        ...(drifts
          ? [
              {
                severity: 'info' as const,
                code: 'hold-drifts',
                fields: { endC: hold.endC, minutes },
                source: 'heat balance; two kelvins is our own choice',
              },
            ]
          : []),
      ],
      assumptions: [
        `pot: filled to 85 %, about as wide as deep, ${pot.massKg.toFixed(2)} kg of steel`,
        `liquid: ${input.liquid}`,
        how === 'sink'
          ? `sinkL: ${sinkL ?? 2 * volumeL}, sinkC: ${sinkC ?? atC}; dipped out and topped up with 60 °C water each time it has fallen 1.5 K`
          : how === 'open' || how === 'lid'
            ? 'still air at 50 % humidity; a draught can double the loss of an open pot'
            : `${how}: a share of the lidded loss, common practice (no source), 40 % either way`,
        'nobody lifts the lid meanwhile',
      ],
      sources: [
        'heat balance; losses checked with an engineering table of open tanks (page seen)',
        'towels, sink and oven: common practice (no source)',
      ],
    };
  },
});
