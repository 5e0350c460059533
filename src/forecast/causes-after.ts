import type { Cause } from './causes.ts';

const OURS = 'our own choice';

/** From the acid curd to the cheese: stretching and brine. Sizes are our own choice unless a line names a source. */
export const CAUSES_AFTER_THE_VAT: readonly Cause[] = [
  {
    id: 'stretched-soon',
    rate: 0.02,
    needs: { verbs: ['stretch'] },
    lasts: [{ verb: 'restToAcid', before: 'stretch', factor: { middle: 0.55, spread: 0.12 } }],
    source: OURS,
  },
  {
    id: 'stretched-late',
    rate: 0.015,
    needs: { verbs: ['stretch'] },
    lasts: [{ verb: 'restToAcid', before: 'stretch', factor: { middle: 1.7, spread: 0.12 } }],
    source: OURS,
  },
  {
    id: 'stretch-water-cool',
    rate: 0.02,
    needs: { verbs: ['stretch'] },
    offsets: { stretchWaterC: { middle: -14, spread: 3 } },
    source: OURS,
  },
  {
    id: 'stretch-water-hot',
    rate: 0.01,
    needs: { verbs: ['stretch'] },
    offsets: { stretchWaterC: { middle: 13, spread: 2 } },
    source: OURS,
  },
  {
    id: 'brine-weak',
    rate: 0.015,
    needs: { verbs: ['brine'] },
    settings: [{ verbs: ['brine'], setting: 'brinePercent', by: 'factor', size: { middle: 0.45, spread: 0.15 } }],
    source: OURS,
  },
  {
    id: 'brine-strong',
    rate: 0.0075,
    needs: { verbs: ['brine'] },
    settings: [{ verbs: ['brine'], setting: 'brinePercent', by: 'offset', size: { middle: 7, spread: 0.8 } }],
    source: 'saturated brine is 26 % salt; most who salt by eye end near it: common practice (no source)',
  },
  {
    id: 'brine-warm',
    rate: 0.0125,
    needs: { verbs: ['brine'] },
    settings: [{ verbs: ['brine'], setting: 'brineC', by: 'offset', size: { middle: 10, spread: 2 } }],
    source: OURS,
  },
  {
    id: 'brined-short',
    rate: 0.0125,
    needs: { verbs: ['brine'] },
    lasts: [{ verb: 'brine', factor: { middle: 0.45, spread: 0.15 } }],
    source: OURS,
  },
  {
    id: 'brined-long',
    rate: 0.015,
    needs: { verbs: ['brine'] },
    lasts: [{ verb: 'brine', factor: { middle: 2.2, spread: 0.2 } }],
    source: OURS,
  },
];
