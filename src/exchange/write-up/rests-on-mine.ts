/**
 * What in a written-up make rests on one kitchen: this packet, this bottle, this burner, this pot, this height above the sea.
 * Each with the neutral form, and whether the make stands in it already, or somebody has to look.
 */
import type { Make } from '../../make/make.ts';
import type { Step } from '../../make/step.ts';
import { isHeated } from './as-made.ts';
import type { Making, Seen } from './seen.ts';

/**
 * One thing found.
 * - `turned`: the make holds the neutral form already; it is told so that the reader knows what was mine.
 * - `offered`: the neutral form is taken or left by the writer.
 * - `ask`: only the writer can say it.
 */
export interface RestsOnMine {
  /** Code of its words, `writeup:rests.<code>`. */
  readonly code:
    | 'packet' | 'packetUnread' | 'spoon' | 'bottle' | 'bottleUnread' | 'drops' | 'calcium' | 'burner' | 'burnerWords'
    | 'pot' | 'potWords' | 'warmth' | 'altitude' | 'altitudeUnknown' | 'thermometer' | 'once'; // prettier-ignore
  readonly standing: 'turned' | 'offered' | 'ask';
  /** Step it was found in; null where it is the whole make. */
  readonly stepId: string | null;
  /** Figures and words of the finding, for its sentence. */
  readonly fields: Readonly<Record<string, string | number>>;
}

/** From here on water may boil before it is there, high up: our own choice, 88 °C is boiling at 3600 m. */
const NEAR_BOILING_C = 88;
/** Water boils a degree lower for every 300 m: common practice (no source). */
const METRES_PER_DEGREE = 300;
/** Below this the boiling point is off by less than a kitchen thermometer. */
const HIGH_M = 300;

const BURNER_WORDS = /\b(burner|hob|ring \d|gas mark|setting \d|medium heat|low heat|high heat|induction|hornilla|quemador|fuego (?:bajo|medio|alto|lento))\b/i; // prettier-ignore
const POT_WORDS = /\b(my (?:pot|jug|bowl)|to the line|to the rivet|\d+(?:\.\d+)? ?cm deep|mi olla|hasta la marca)\b/i;
const BOIL_WORDS = /\b(boil|boils|boiling|rolling boil|simmer|hervir|hirviendo|hervor)\b/i;

/** Boiling point of water at a height, °C. */
export const boilingC = (altitudeM: number): number => 100 - altitudeM / METRES_PER_DEGREE;

/**
 * @param input.altitudeM where it was made; null where nobody said
 * @param input.neutral whether burner minutes have been taken out
 */
export function restsOnMine(input: {
  readonly make: Make;
  readonly makings: readonly Making[];
  readonly seen: Seen;
  readonly altitudeM: number | null;
  readonly neutral: boolean;
}): readonly RestsOnMine[] {
  const { make, makings } = input;
  return [
    ...ofMakings(input),
    ...make.steps.flatMap((step) => [...burner(step, input), ...words(step), ...altitude(step, input)]),
    ...warmth(input),
    ...(makings.length === 1 ? [whole('once', 'ask')] : []),
  ];
}

type Asked = Parameters<typeof restsOnMine>[0];

const whole = (code: RestsOnMine['code'], standing: RestsOnMine['standing'], fields: RestsOnMine['fields'] = {}): RestsOnMine => ({ code, standing, stepId: null, fields }); // prettier-ignore

/** Packets, bottles and thermometers: one line for all makings together. */
function ofMakings({ makings }: Asked): RestsOnMine[] {
  const setups = makings.map(({ plan }) => plan.setup);
  const some = (test: (setup: (typeof setups)[number]) => boolean): boolean => setups.some(test);
  const byPacket = setups.filter(({ culture }) => culture.bulkPercent === undefined);
  const checked = makings.every(({ record }) => record.prepared.some(({ value }) => value !== undefined));
  const first = byPacket[0]?.culture.packetTreatsL;
  return [
    ...(first === undefined ? [] : [byPacket.some(({ culture }) => culture.unreadPacketL !== undefined) ? whole('packetUnread', 'ask', { treatsL: first }) : whole('packet', 'turned', { treatsL: first })]),
    ...(some(({ culture }) => culture.measuredBy === 'spoon') ? [whole('spoon', 'ask')] : []),
    ...(some(({ rennet }) => rennet.strengthImcuPerMl === undefined) ? [whole('bottleUnread', 'ask')] : [whole('bottle', 'turned', { strength: setups.at(-1)?.rennet.strengthImcuPerMl ?? 0 })]),
    ...(some(({ rennet }) => rennet.dropsPerMl !== undefined) ? [whole('drops', 'turned')] : []),
    ...(some(({ calcium }) => calcium.has) ? [whole('calcium', 'turned', { percent: setups.at(-1)?.calcium.solutionPercent ?? 0 })] : []),
    ...(checked ? [] : [whole('thermometer', 'ask', { errorC: Math.max(...setups.map(({ thermometerErrorC }) => thermometerErrorC)) })]),
  ];
} // prettier-ignore

/** Minutes of heating are a burner's and a pot's; the temperature is everybody's. */
function burner(step: Step, { seen, neutral }: Asked): RestsOnMine[] {
  if (!isHeated(step)) return [];
  const minutes = seen.steps.find(({ stepId }) => stepId === step.id)?.minutes ?? null;
  const hasTime = step.until.of.some(({ kind }) => kind === 'time');
  const hasOther = step.until.of.some(({ kind }) => kind !== 'time');
  if (minutes === null && !hasTime) return [];
  const fields = { step: step.name, toC: step.set.toC?.value ?? 0, ...(minutes === null ? {} : { low: Math.round(minutes.low), high: Math.round(minutes.high) }) }; // prettier-ignore
  const standing = !hasTime || neutral ? (hasTime && !hasOther ? 'ask' : 'turned') : hasOther ? 'offered' : 'ask';
  return [{ code: 'burner', standing, stepId: step.id, fields }];
}

/** Sentences that only mean something beside this stove and this pot. */
function words(step: Step): RestsOnMine[] {
  const found = (pattern: RegExp, code: RestsOnMine['code']): RestsOnMine[] => {
    const text = [step.name, step.how, step.why, ...step.prepare.map(({ what }) => what)].map((one) => pattern.exec(one)?.[0]).find((one) => one !== undefined);
    return text === undefined ? [] : [{ code, standing: 'ask', stepId: step.id, fields: { step: step.name, words: text } }];
  };
  return [...found(BURNER_WORDS, 'burnerWords'), ...found(POT_WORDS, 'potWords')];
} // prettier-ignore

/** What is to boil, or nearly so, and whether it can be there. */
function altitude(step: Step, { altitudeM }: Asked): RestsOnMine[] {
  const hottest = Math.max(...[step.set.toC, step.set.atC, step.set.waterC].map((one) => one?.value ?? 0));
  const text = [step.name, step.how, ...step.prepare.map(({ what }) => what)].map((one) => BOIL_WORDS.exec(one)?.[0]).find((one) => one !== undefined); // prettier-ignore
  if (hottest < NEAR_BOILING_C && text === undefined && step.verb !== 'boilDown') return [];
  if (altitudeM === null) return [{ code: 'altitudeUnknown', standing: 'ask', stepId: step.id, fields: { step: step.name } }]; // prettier-ignore
  const boils = boilingC(altitudeM);
  const isOff = altitudeM >= HIGH_M || hottest > boils;
  return [{ code: 'altitude', standing: isOff ? 'ask' : 'turned', stepId: step.id, fields: { step: step.name, altitudeM, boilsC: Math.round(boils) } }]; // prettier-ignore
}

/** Rests that a pot's own warmth decides: how much it was kept warm, in which room. */
function warmth({ make, makings, seen }: Asked): RestsOnMine[] {
  const rests = make.steps.filter(({ verb, until }) => (verb === 'restToAcid' || verb === 'ripen' || verb === 'hold') && until.of.some(({ kind }) => kind === 'time')); // prettier-ignore
  const last = makings.at(-1);
  if (rests.length === 0 || last === undefined) return [];
  const { setup } = last.plan;
  return [
    whole('warmth', 'turned', { roomC: setup.roomC, kept: setup.pot.keptWarm }),
    whole('pot', 'turned', { potL: setup.pot.volumeL, lowL: seen.milkL.low, highL: seen.milkL.high }),
  ];
}
