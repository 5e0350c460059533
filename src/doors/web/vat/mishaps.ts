import type { Verb } from '../../../make/step.ts';

/** Something to do after a mishap; its words are `vat:mishap.<mishap>.<choice>`. */
export interface MishapChoice {
  readonly id: string;
  /** Temperatures that its words name, by their place in the sentence, °C. */
  readonly degreesC?: Readonly<Record<string, number>>;
}

/** One thing that goes wrong at the vat, where it is likely, and what may still be done. */
export interface Mishap {
  readonly id: string;
  /** Steps by verb where it is likeliest; it is offered first there and found under "all causes" elsewhere. */
  readonly likelyIn: readonly Verb[];
  /** Asked at most: how hot or cold it was, and for how long. */
  readonly asks: readonly ('temperature' | 'minutes')[];
  /** Besides these, *Stop and throw away* always stands last. */
  readonly choices: readonly MishapChoice[];
  /** A stop row: the plain advice comes before any kitchen remedy. */
  readonly mayBeUnsafe: boolean;
  readonly source: string;
}

const PRACTICE = 'common practice (no source)';

/** Trade knowledge as data; nothing here is specific to one cheese, verbs say where it belongs. Likeliest first. */
export const MISHAPS: readonly Mishap[] = [
  {
    id: 'tooHot',
    likelyIn: ['warm', 'hold', 'ripen', 'set', 'stir', 'cook', 'wash', 'restToAcid'],
    asks: ['temperature', 'minutes'],
    choices: [{ id: 'coolDown' }, { id: 'goOnSlower' }],
    mayBeUnsafe: false,
    source: PRACTICE,
  },
  {
    id: 'tooCold',
    likelyIn: ['warm', 'hold', 'ripen', 'set', 'stir', 'cook', 'wash', 'restToAcid', 'stretch'],
    asks: ['temperature', 'minutes'],
    choices: [{ id: 'rewarm' }, { id: 'waitLonger' }],
    mayBeUnsafe: false,
    source: PRACTICE,
  },
  {
    id: 'noSet',
    likelyIn: ['set'],
    asks: [],
    choices: [{ id: 'rewarmAndWait', degreesC: { to: 34 } }, { id: 'halfDoseMore' }, { id: 'acidAndHeat' }],
    mayBeUnsafe: false,
    source: 'Thom & Fisk 1918, The Book of Cheese, section 97 (seen); half dose: common practice (no source)',
  },
  {
    id: 'raggedBreak',
    likelyIn: ['set', 'cut'],
    asks: [],
    choices: [{ id: 'waitFive' }, { id: 'cutLarger' }],
    mayBeUnsafe: false,
    source: 'Thom & Fisk 1918, The Book of Cheese, section 196 (seen)',
  },
  {
    id: 'shatters',
    likelyIn: ['cut', 'heal', 'stir'],
    asks: [],
    choices: [{ id: 'restThenLadle' }, { id: 'finerCloth' }],
    mayBeUnsafe: false,
    source: 'Thom & Fisk 1918, The Book of Cheese, section 99 (seen)',
  },
  {
    id: 'matsInLumps',
    likelyIn: ['stir', 'cook', 'wash', 'drawWhey', 'settle'],
    asks: [],
    choices: [{ id: 'breakByHand' }, { id: 'slowerHeat' }],
    mayBeUnsafe: false,
    source: PRACTICE,
  },
  {
    id: 'pouredTooHot',
    likelyIn: ['wash'],
    asks: ['temperature'],
    choices: [{ id: 'coolWater' }, { id: 'goOnSlower' }],
    mayBeUnsafe: false,
    source: PRACTICE,
  },
  {
    id: 'acidSlow',
    likelyIn: ['ripen', 'restToAcid', 'mat', 'drain'],
    asks: ['minutes'],
    choices: [{ id: 'keepWarmWait' }, { id: 'chillTonight', degreesC: { below: 5 } }],
    mayBeUnsafe: true,
    source:
      'Zehren & Zehren 1968, J. Dairy Sci.: slow acid and toxin (abstract seen); remedies: common practice (no source)',
  },
  {
    id: 'acidFast',
    likelyIn: ['restToAcid', 'mat', 'drain', 'ripen'],
    asks: [],
    choices: [{ id: 'stretchNow' }, { id: 'washAndCool' }],
    mayBeUnsafe: false,
    source: 'Thom & Fisk 1918, The Book of Cheese, section 208 (seen); for stretched curd: common practice (no source)',
  },
  {
    id: 'tears',
    likelyIn: ['stretch', 'form', 'restToAcid'],
    asks: [],
    choices: [{ id: 'holdAndRetest' }, { id: 'hotterWater', degreesC: { water: 80 } }],
    mayBeUnsafe: false,
    source: 'Dairy Ingredients for Food Processing 2011, ch. 11, p. 279 (excerpt seen)',
  },
  {
    id: 'runs',
    likelyIn: ['stretch', 'form', 'restToAcid'],
    asks: [],
    choices: [{ id: 'coolAndKnead', degreesC: { low: 65, high: 70 } }, { id: 'useAsFilling' }],
    mayBeUnsafe: false,
    source: PRACTICE,
  },
  {
    id: 'seams',
    likelyIn: ['form', 'stretch'],
    asks: [],
    choices: [{ id: 'oneMoreBath' }, { id: 'leaveIt' }],
    mayBeUnsafe: false,
    source: 'Dairy Ingredients for Food Processing 2011, ch. 11, p. 279 (excerpt seen)',
  },
  {
    id: 'softSkin',
    likelyIn: ['cool', 'brine'],
    asks: [],
    choices: [{ id: 'dryOnRack', degreesC: { at: 5 } }, { id: 'correctBrine' }],
    mayBeUnsafe: false,
    source: 'Kindstedt 1996 (seen at second hand); drying: common practice (no source)',
  },
  {
    id: 'tooSalty',
    likelyIn: ['brine', 'pack'],
    asks: ['minutes'],
    choices: [{ id: 'soak' }, { id: 'grateIt' }],
    mayBeUnsafe: false,
    source: PRACTICE,
  },
  {
    id: 'forgotToAdd',
    likelyIn: ['add', 'ripen', 'set'],
    asks: [],
    choices: [{ id: 'addNow' }, { id: 'goWithout' }],
    mayBeUnsafe: false,
    source: PRACTICE,
  },
  {
    id: 'addedTwice',
    likelyIn: ['add', 'ripen'],
    asks: [],
    choices: [{ id: 'watchEarlier' }, { id: 'cooler' }],
    mayBeUnsafe: false,
    source: PRACTICE,
  },
  {
    id: 'spilled',
    likelyIn: ['drain', 'form', 'cool', 'pack', 'store'],
    asks: [],
    choices: [{ id: 'keepTheRest' }],
    mayBeUnsafe: false,
    source: PRACTICE,
  },
  {
    id: 'mustLeave',
    likelyIn: [],
    asks: ['minutes'],
    choices: [{ id: 'chillTonight', degreesC: { below: 5 } }, { id: 'handOver' }],
    mayBeUnsafe: false,
    source: PRACTICE,
  },
  {
    id: 'oddSmell',
    likelyIn: [],
    asks: [],
    choices: [{ id: 'setAside' }],
    mayBeUnsafe: true,
    source: 'Thom & Fisk 1918, The Book of Cheese, sections 208, 254 and 258 (seen)',
  },
];

const OFFERED_FIRST = 8;

/** Mishaps for a step, likeliest first, and the rest behind "all causes". */
export function mishapsFor(verb: Verb | null): {
  readonly first: readonly Mishap[];
  readonly others: readonly Mishap[];
} {
  const likely = MISHAPS.filter((mishap) => verb !== null && mishap.likelyIn.includes(verb));
  const anywhere = MISHAPS.filter((mishap) => mishap.likelyIn.length === 0);
  const first = [...likely, ...anywhere].slice(0, OFFERED_FIRST);
  return { first, others: MISHAPS.filter((mishap) => !first.includes(mishap)) };
}
