import { z } from 'zod';
import type { Finding } from '../../science/finding.ts';
import {
  COARSEST_DROP_FRACTION,
  DEFAULT_DOSE_IMCU_PER_L,
  DILUTION_PARTS,
  DROPS_PER_ML,
  RENNET_FORMS,
  RENNET_STRENGTH_PRIORS,
  rennetDose,
  rennetValidity,
} from '../../science/rennet.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges, underContractNames } from './fields.ts';

const NAMES = { doseImcuPerL: 'doseIMCUPerL', strengthImcu: 'strengthIMCUPerML', dropsPerMl: 'dropsPerML' };
const span = z.strictObject({ p5: z.number(), p95: z.number() });

/** How much rennet: mL, drops and dilution water, with the span that an unknown strength leaves. */
export const rennetCalc = defineCalculator({
  name: 'rennet',
  answers: 'How much rennet to take for this milk',
  input: z.strictObject({
    milkL: z.number().positive(),
    strengthIMCUPerML: z.number().positive().optional().describe('per mL of a liquid, per g of a powder, per tablet'),
    form: z.enum(RENNET_FORMS).default('liquid'),
    doseIMCUPerL: z.number().positive().default(DEFAULT_DOSE_IMCU_PER_L),
    monthsStored: z.number().nonnegative().default(0),
    storedC: z.number().default(4),
    dropsPerML: z.number().positive().optional(),
  }),
  result: z.strictObject({
    mL: z.number().nullable(),
    drops: z.number().nullable(),
    dilutionWaterML: z.number(),
    doseIMCUPerL: z.number(),
    amount: z.number(),
    unit: z.enum(['mL', 'g', 'tablet']),
    strengthNowIMCUPerML: z.number(),
    span: z.strictObject({
      mL: span.nullable(),
      drops: span.nullable(),
      dilutionWaterML: span,
      doseIMCUPerL: span,
      amount: span,
    }),
  }),
  example: { milkL: 12, strengthIMCUPerML: 200, doseIMCUPerL: 45 },
  run(input) {
    const { milkL, strengthIMCUPerML, form, doseIMCUPerL, monthsStored, storedC, dropsPerML } = input;
    const asked = {
      milkL,
      form,
      doseImcuPerL: doseIMCUPerL,
      monthsStored,
      storedC,
      ...(strengthIMCUPerML === undefined ? {} : { strengthImcu: strengthIMCUPerML }),
      ...(dropsPerML === undefined ? {} : { dropsPerMl: dropsPerML }),
    };
    const dose = underContractNames(NAMES, () => rennetDose(asked));
    const isLiquid = dose.unit === 'mL';
    const prior = RENNET_STRENGTH_PRIORS[form];
    const cautions: Finding[] = nearEdges({
      validity: rennetValidity,
      values: { doseImcuPerL: doseIMCUPerL },
      names: NAMES,
    });
    if (!dose.strengthKnown) {
      cautions.push({
        severity: 'info',
        code: 'rennet-strength-unknown',
        fields: { assumed: prior.median, low: prior.low, high: prior.high, unit: prior.unit },
        source: prior.source,
        unconfirmed: true,
      });
    }
    if (dose.dropFraction !== null && dose.dropFraction > COARSEST_DROP_FRACTION) {
      cautions.push({
        severity: 'caution',
        code: 'rennet-drop-coarse',
        fields: { dropPercentOfDose: 100 * dose.dropFraction },
        source: 'our own rule; USP 32 <1101> on droppers',
      });
    }
    const waterSpan = isLiquid
      ? { p5: dose.amount * DILUTION_PARTS.low, p95: dose.amount * DILUTION_PARTS.high }
      : { p5: dose.dilutionWaterMl, p95: dose.dilutionWaterMl };
    return {
      result: {
        mL: isLiquid ? dose.amount : null,
        drops: dose.drops,
        dilutionWaterML: dose.dilutionWaterMl,
        doseIMCUPerL: dose.doseImcuPerL,
        amount: dose.amount,
        unit: dose.unit,
        strengthNowIMCUPerML: dose.strengthNowImcu,
        span: {
          mL: isLiquid ? dose.amountSpan : null,
          drops: dose.dropsSpan,
          dilutionWaterML: waterSpan,
          doseIMCUPerL: dose.doseSpan,
          amount: dose.amountSpan,
        },
      },
      cautions,
      assumptions: [
        `form: ${form}`,
        `dose: ${doseIMCUPerL} IMCU/L of milk`,
        dose.strengthKnown
          ? `strength as on the label, after ${monthsStored} months at ${storedC} °C (loss from memory)`
          : `strength unknown: ${prior.median} ${prior.unit}, nine in ten lots between ${prior.low} and ${prior.high} (${prior.source}), ln-normal on either side, after ${monthsStored} months at ${storedC} °C`,
        ...(isLiquid
          ? [
              dropsPerML === undefined
                ? `drops: ${DROPS_PER_ML.typical} per mL, ${DROPS_PER_ML.low} to ${DROPS_PER_ML.high}, until counted for this bottle`
                : `drops: ${dropsPerML} per mL, as counted`,
              `dilution: ${DILUTION_PARTS.typical} parts of cold water without chlorine, ${DILUTION_PARTS.low} to ${DILUTION_PARTS.high}`,
            ]
          : ['dilution: a small cup of cold water without chlorine']),
      ],
      sources: [
        'Thom and Fisk (1918) The Book of Cheese: dose and dilution, seen',
        'USP 32 <1101>: drops of water per mL, seen',
        'Hill, university web notes, rennet activity: single strength, seen',
      ],
    };
  },
});
