/** What goes wrong at the vat, as data: where it is likely, what is asked, what it means to the vat, and what may be done. */
import type { JudgementName } from './judgement.ts';
import type { Verb } from './step.ts';

/**
 * What a remedy does, so that it can be forecast; null where only the trade knows what it brings.
 * - `goOn`: nothing but what the plan says
 * - `bring`: to the temperature that the plan wants now, within ten minutes
 * - `cover`: nothing warms it for the next hour
 * - `wait`: the running step lasts so many minutes longer than now
 * - `now`: the running step is over
 * - `addRest`: what is missing of the dose; `addHalf`: half the dose again
 * - `cooler`, `larger`: one step of what the make leaves free
 * - `chill`: the curd in the fridge until tomorrow
 * - `away`: covered and alone for the minutes that were said
 * - `meter`: a pH meter again
 */
export type Remedy =
  | 'goOn' | 'bring' | 'cover' | 'wait' | 'now' | 'addRest' | 'addHalf' | 'cooler' | 'larger' | 'chill' | 'away' | 'meter'; // prettier-ignore

/** Something to do after a mishap; its words are `vat:mishap.<mishap>.<choice>`. */
export interface MishapChoice {
  readonly id: string;
  readonly does: Remedy | null;
  /** Of `wait`. */
  readonly minutes?: number;
  /** Temperatures that its words name, by their place in the sentence, °C. */
  readonly degreesC?: Readonly<Record<string, number>>;
}

/** What is asked: at most two of them. */
export type MishapQuestion = 'temperature' | 'minutes' | 'ingredient' | 'share';

/**
 * What it means to the vat: it stood at a temperature, or without heat; a dose was another than planned; the meter is gone; the
 * curd was judged; or nothing that the sums know of.
 */
export type MishapMeaning =
  'temperature' | 'noHeat' | 'dose' | 'noMeter' | { readonly judgement: JudgementName; readonly grade: string } | null;

/** One thing that goes wrong at the vat. */
export interface Mishap {
  readonly id: string;
  /** Steps by verb where it is likeliest; it is offered first there and found under "all causes" elsewhere. */
  readonly likelyIn: readonly Verb[];
  readonly asks: readonly MishapQuestion[];
  readonly means: MishapMeaning;
  /** Share of the dose that went in, where that is the mishap itself. */
  readonly fractionOfPlan?: number;
  /** Besides these, *Stop and throw away* always stands last. */
  readonly choices: readonly MishapChoice[];
  /** A stop row: the plain advice comes before any kitchen remedy. */
  readonly mayBeUnsafe: boolean;
  readonly source: string;
}

const PRACTICE = 'common practice (no source)';
/** Wherever milk or curd stands warm, too hot and too cold are the likeliest of all. */
const WARM: readonly Verb[] = ['warm', 'hold', 'add', 'ripen', 'set', 'cut', 'heal', 'stir', 'cook', 'settle', 'drawWhey', 'wash', 'mat', 'restToAcid']; // prettier-ignore

/** Trade knowledge as data; nothing here is specific to one cheese, verbs say where it belongs. Likeliest first. */
export const MISHAPS: readonly Mishap[] = [
  { id: 'tooHot', likelyIn: WARM, asks: ['temperature', 'minutes'], means: 'temperature', mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'coolDown', does: 'bring' }, { id: 'goOnSlower', does: 'goOn' }] },
  { id: 'tooCold', likelyIn: [...WARM, 'stretch'], asks: ['temperature', 'minutes'], means: 'temperature', mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'rewarm', does: 'bring' }, { id: 'waitLonger', does: 'cover' }] },
  { id: 'noSet', likelyIn: ['set'], asks: [], means: { judgement: 'cleanBreak', grade: 'not-yet' }, mayBeUnsafe: false,
    source: 'Thom & Fisk 1918, The Book of Cheese, section 97 (seen); half dose: common practice (no source)',
    choices: [{ id: 'rewarmAndWait', does: 'bring' }, { id: 'halfDoseMore', does: 'addHalf' }, { id: 'acidAndHeat', does: null }] },
  { id: 'raggedBreak', likelyIn: ['set', 'cut'], asks: [], means: { judgement: 'cleanBreak', grade: 'ragged' }, mayBeUnsafe: false, source: 'Thom & Fisk 1918, The Book of Cheese, section 196 (seen)',
    choices: [{ id: 'waitFive', does: 'wait', minutes: 5 }, { id: 'cutLarger', does: 'larger' }] },
  { id: 'shatters', likelyIn: ['cut', 'heal', 'stir'], asks: [], means: null, mayBeUnsafe: false, source: 'Thom & Fisk 1918, The Book of Cheese, section 99 (seen)',
    choices: [{ id: 'restThenLadle', does: null }, { id: 'finerCloth', does: null }] },
  { id: 'matsInLumps', likelyIn: ['stir', 'cook', 'wash', 'drawWhey', 'settle'], asks: [], means: null, mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'breakByHand', does: null }, { id: 'slowerHeat', does: null }] },
  { id: 'pouredTooHot', likelyIn: ['wash'], asks: ['temperature', 'minutes'], means: 'temperature', mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'coolWater', does: 'bring' }, { id: 'goOnSlower', does: 'goOn' }] },
  { id: 'acidSlow', likelyIn: ['ripen', 'restToAcid', 'mat', 'drain'], asks: [], means: null, mayBeUnsafe: true,
    source: 'Zehren & Zehren 1968, J. Dairy Sci.: slow acid and toxin (abstract seen); remedies: common practice (no source)',
    choices: [{ id: 'keepWarmWait', does: 'goOn' }, { id: 'chillTonight', does: 'chill', degreesC: { below: 5 } }] },
  { id: 'acidFast', likelyIn: ['restToAcid', 'mat', 'drain', 'ripen'], asks: [], means: null, mayBeUnsafe: false,
    source: 'Thom & Fisk 1918, The Book of Cheese, section 208 (seen); for stretched curd: common practice (no source)',
    choices: [{ id: 'stretchNow', does: 'now' }, { id: 'washAndCool', does: null }] },
  { id: 'tears', likelyIn: ['stretch', 'form', 'restToAcid'], asks: [], means: { judgement: 'stretch', grade: 'tears-short' }, mayBeUnsafe: false,
    source: 'Dairy Ingredients for Food Processing 2011, ch. 11, p. 279 (excerpt seen)',
    choices: [{ id: 'holdAndRetest', does: 'wait', minutes: 20 }, { id: 'hotterWater', does: null, degreesC: { water: 80 } }] },
  { id: 'runs', likelyIn: ['stretch', 'form', 'restToAcid'], asks: [], means: { judgement: 'stretch', grade: 'runs' }, mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'coolAndKnead', does: null, degreesC: { low: 65, high: 70 } }, { id: 'useAsFilling', does: null }] },
  { id: 'seams', likelyIn: ['form', 'stretch'], asks: [], means: null, mayBeUnsafe: false,
    source: 'Dairy Ingredients for Food Processing 2011, ch. 11, p. 279 (excerpt seen)',
    choices: [{ id: 'oneMoreBath', does: null }, { id: 'leaveIt', does: null }] },
  { id: 'softSkin', likelyIn: ['cool', 'brine'], asks: [], means: null, mayBeUnsafe: false, source: 'Kindstedt 1996 (seen at second hand); drying: common practice (no source)',
    choices: [{ id: 'dryOnRack', does: null, degreesC: { at: 5 } }, { id: 'correctBrine', does: null }] },
  { id: 'tooSalty', likelyIn: ['brine', 'pack'], asks: [], means: null, mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'soak', does: null }, { id: 'grateIt', does: null }] },
  { id: 'forgotToAdd', likelyIn: ['add', 'ripen', 'set'], asks: ['ingredient'], means: 'dose', fractionOfPlan: 0, mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'addNow', does: 'addRest' }, { id: 'goWithout', does: 'goOn' }] },
  { id: 'addedTwice', likelyIn: ['add', 'ripen', 'set'], asks: ['ingredient'], means: 'dose', fractionOfPlan: 2, mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'watchEarlier', does: 'goOn' }, { id: 'cooler', does: 'cooler' }] },
  { id: 'wrongAmount', likelyIn: ['add', 'ripen'], asks: ['ingredient', 'share'], means: 'dose', mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'makeUp', does: 'addRest' }, { id: 'leaveSo', does: 'goOn' }] },
  { id: 'late', likelyIn: ['restToAcid'], asks: ['minutes'], means: 'noHeat', mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'rewarm', does: 'bring' }, { id: 'goOnFromHere', does: 'goOn' }] },
  { id: 'mustLeave', likelyIn: [], asks: ['minutes'], means: null, mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'leaveCovered', does: 'away' }, { id: 'chillTonight', does: 'chill', degreesC: { below: 5 } }, { id: 'handOver', does: 'goOn' }] },
  { id: 'oddSmell', likelyIn: [], asks: [], means: null, mayBeUnsafe: true, source: 'Thom & Fisk 1918, The Book of Cheese, sections 208, 254 and 258 (seen)',
    choices: [{ id: 'setAside', does: null }] },
  { id: 'powerCut', likelyIn: [], asks: ['minutes'], means: 'noHeat', mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'bath', does: 'bring' }, { id: 'coverAndWait', does: 'cover' }, { id: 'chillTonight', does: 'chill', degreesC: { below: 5 } }] },
  { id: 'meterDead', likelyIn: [], asks: [], means: 'noMeter', mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'byHand', does: 'goOn' }, { id: 'another', does: 'meter' }] },
  { id: 'spilled', likelyIn: ['drain', 'form', 'cool', 'pack', 'store'], asks: [], means: null, mayBeUnsafe: false, source: PRACTICE,
    choices: [{ id: 'keepTheRest', does: null }] },
]; // prettier-ignore

const OFFERED_FIRST = 8;
const LIKELY_FIRST = 6; // leaves room for what may happen in any step: having to leave, an odd smell

/** Mishaps for a step, likeliest first, and the rest behind "all causes". */
export function mishapsFor(verb: Verb | null): {
  readonly first: readonly Mishap[];
  readonly others: readonly Mishap[];
} {
  const likely = MISHAPS.filter((mishap) => verb !== null && mishap.likelyIn.includes(verb));
  const anywhere = MISHAPS.filter((mishap) => mishap.likelyIn.length === 0);
  const first = [...likely.slice(0, LIKELY_FIRST), ...anywhere].slice(0, OFFERED_FIRST);
  return { first, others: MISHAPS.filter((mishap) => !first.includes(mishap)) };
}

export const mishapNamed = (id: string): Mishap | undefined => MISHAPS.find((mishap) => mishap.id === id);
