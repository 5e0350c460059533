import { z } from 'zod';
import { milkDensityKgPerM3, milkDensityValidity, milkSpecificHeatKJPerKgK, milkValidity } from '../../science/milk.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges } from './fields.ts';
import { MILK_SOURCES, milkFields, milkOf } from './milk-fields.ts';

const ROOM_C = 20;

/** What is in this milk. */
export const milkCalc = defineCalculator({
  name: 'milk',
  answers: 'What is in this milk, how much a litre weighs and what it takes to warm it',
  input: z.strictObject(milkFields),
  result: z.strictObject({
    species: z.string(),
    fatPercent: z.number(),
    proteinPercent: z.number(),
    caseinPercent: z.number(),
    wheyProteinPercent: z.number(),
    lactosePercent: z.number(),
    ashPercent: z.number(),
    waterPercent: z.number(),
    solidsNotFatPercent: z.number(),
    pH: z.number(),
    caseinGPerL: z.number(),
    wheyProteinGPerL: z.number(),
    lactoseMM: z.number(),
    solublePhosphateMM: z.number(),
    citrateMM: z.number(),
    colloidalPhosphateMM: z.number(),
    calciumMM: z.number(),
    densityKgPerM3: z.number(),
    specificHeatKJPerKgK: z.number(),
  }),
  example: { species: 'cow', fatPercent: 3.8, proteinPercent: 3.4 },
  run(milk) {
    const { composition, assumptions } = milkOf({ milk, prefix: '' });
    const temperatureC = milk.temperatureC ?? ROOM_C;
    const { fatPercent, proteinPercent, caseinPercent, lactosePercent, pH } = milk;
    return {
      result: {
        ...composition,
        densityKgPerM3: milkDensityKgPerM3({ ...composition, temperatureC }),
        specificHeatKJPerKgK: milkSpecificHeatKJPerKgK({ composition, temperatureC }),
      },
      cautions: [
        ...nearEdges({
          validity: milkValidity,
          values: { fatPercent, proteinPercent, caseinPercent, lactosePercent, pH },
          names: {},
        }),
        ...nearEdges({ validity: milkDensityValidity, values: { temperatureC: milk.temperatureC }, names: {} }),
      ],
      assumptions: [
        ...assumptions,
        ...(milk.temperatureC === undefined ? [`temperature for density and specific heat: ${ROOM_C} °C`] : []),
      ],
      sources: [
        ...MILK_SOURCES,
        'dairy formula for density at 15 °C and its fall with temperature, seen at second hand',
        'Choi and Okos (1986), specific heat, coefficients seen at second hand',
      ],
    };
  },
});
