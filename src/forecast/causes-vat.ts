import type { Cause } from './causes.ts';

const OURS = 'our own choice';

/** What was done from the burner to the drained curd. Sizes are our own choice: big enough that a maker would call it off. */
export const CAUSES_AT_THE_VAT: readonly Cause[] = [
  {
    id: 'vat-cold',
    rate: 0.015,
    needs: { verbs: ['ripen'] },
    settings: [
      { verbs: ['warm'], setting: 'toC', by: 'offset', size: { middle: -4.5, spread: 1 } },
      { verbs: ['hold', 'ripen', 'stir'], setting: 'atC', by: 'offset', size: { middle: -4.5, spread: 1 } },
    ],
    source: OURS,
  },
  {
    id: 'vat-hot',
    rate: 0.0125,
    needs: { verbs: ['ripen'] },
    settings: [
      { verbs: ['warm'], setting: 'toC', by: 'offset', size: { middle: 4.5, spread: 1 } },
      { verbs: ['hold', 'ripen', 'stir'], setting: 'atC', by: 'offset', size: { middle: 4.5, spread: 1 } },
    ],
    source: OURS,
  },
  {
    id: 'thermometer-high',
    rate: 0.015,
    needs: { thermometerUnchecked: true },
    offsets: { thermometerC: { middle: 3.5, spread: 0.8 } },
    source: OURS,
  },
  {
    id: 'thermometer-low',
    rate: 0.015,
    needs: { thermometerUnchecked: true },
    offsets: { thermometerC: { middle: -3.5, spread: 0.8 } },
    source: OURS,
  },
  {
    id: 'meter-high',
    rate: 0.01,
    needs: { pHMeter: true },
    offsets: { meterPH: { middle: 0.22, spread: 0.06 } },
    source: OURS,
  },
  {
    id: 'meter-low',
    rate: 0.01,
    needs: { pHMeter: true },
    offsets: { meterPH: { middle: -0.22, spread: 0.06 } },
    source: OURS,
  },
  {
    id: 'cut-early',
    rate: 0.02,
    needs: { verbs: ['cut'] },
    lasts: [{ verb: 'set', factor: { middle: 0.62, spread: 0.1 } }],
    source: OURS,
  },
  {
    id: 'cut-late',
    rate: 0.02,
    needs: { verbs: ['cut'] },
    lasts: [{ verb: 'set', factor: { middle: 1.7, spread: 0.12 } }],
    source: OURS,
  },
  {
    id: 'stirred-short',
    rate: 0.015,
    needs: { verbs: ['stir'] },
    lasts: [{ verb: 'stir', factor: { middle: 0.45, spread: 0.15 } }],
    source: OURS,
  },
  {
    id: 'stirred-long',
    rate: 0.015,
    needs: { verbs: ['stir'] },
    lasts: [{ verb: 'stir', factor: { middle: 1.9, spread: 0.15 } }],
    source: OURS,
  },
  {
    id: 'washed-too-much',
    rate: 0.01,
    needs: { verbs: ['drawWhey', 'wash'] },
    settings: [
      { verbs: ['drawWhey'], setting: 'fractionOfVat', by: 'factor', size: { middle: 1.7, spread: 0.1 } },
      // More water of the same heat would end hotter; whoever washes by the line tempers it.
      { verbs: ['wash'], setting: 'waterC', by: 'offset', size: { middle: -5, spread: 1 } },
    ],
    source: OURS,
  },
  {
    id: 'washed-too-little',
    rate: 0.01,
    needs: { verbs: ['drawWhey', 'wash'] },
    settings: [{ verbs: ['drawWhey'], setting: 'fractionOfVat', by: 'factor', size: { middle: 0.4, spread: 0.15 } }],
    source: OURS,
  },
  {
    id: 'wash-too-hot',
    rate: 0.0125,
    needs: { verbs: ['wash'] },
    settings: [
      { verbs: ['wash'], setting: 'stopAtC', by: 'offset', size: { middle: 6, spread: 1 } },
      { verbs: ['wash'], setting: 'waterC', by: 'offset', size: { middle: 15, spread: 3 } },
    ],
    source: OURS,
  },
  {
    id: 'rest-cold',
    rate: 0.0175,
    needs: { verbs: ['restToAcid'] },
    factors: { heatLoss: { middle: 3, spread: 0.25 } },
    settings: [{ verbs: ['restToAcid'], setting: 'atC', by: 'offset', size: { middle: -8, spread: 1.5 } }],
    source: OURS,
  },
];
