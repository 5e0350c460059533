/** The ranked makes in words. */
import { dayWith } from '../../../exchange/typical-day.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import {
  chooseMakes,
  type Choice,
  type ChoosingFacts,
  type Note,
  type Reason,
  type Ruling,
} from '../../../make/choosing.ts';
import { findMakes } from '../../../make/find-make.ts';
import type { ListedMake } from './listed-make.ts';

export interface Telling {
  readonly say: Say;
  readonly write: Writer;
}

export interface MakeRow {
  readonly id: string;
  readonly name: string;
  /** The other name it was found by; null where none was asked for. */
  readonly foundAs: string | null;
  /** Written here, or still a draft; null where there is nothing to say of it. */
  readonly tag: string | null;
  readonly about: string;
  /** Hours, hands, skill, how long it keeps. */
  readonly asks: string;
  /** What speaks for it, in one line; empty where it does not fit. */
  readonly why: string;
  /** What rules it out, one sentence each. */
  readonly stops: readonly string[];
  /** What to know of it all the same. */
  readonly notes: readonly { readonly text: string; readonly source: string | null }[];
  readonly fits: boolean;
  /** Its day against the hours that are free; null where one of the two is not known. */
  readonly bar: HoursBar | null;
}

/** Lengths as shares of the scale that all rows have in common, 0 to 1. */
export interface HoursBar {
  readonly free: number;
  readonly likely: number;
  readonly kept: number;
}

export interface MakesView {
  readonly fitting: readonly MakeRow[];
  readonly others: readonly MakeRow[];
  /** Hours at the ends of the scale of every bar. */
  readonly scaleH: number;
  /** Nothing is called so. */
  readonly isNothingFound: boolean;
}

const LONGEST_SCALE_H = 16; // our own choice: a longer day than this goes past the edge

/** Every make with its place in the ranking, found by the name that was typed. */
export function makesView(
  input: {
    readonly makes: readonly ListedMake[];
    readonly ownIds: ReadonlySet<string>;
    readonly have: ChoosingFacts;
    readonly typed: string;
  } & Telling,
): MakesView {
  const { makes, have, typed } = input;
  const dated = makes.map(({ facts, days }) => ({ facts, day: dayWith({ days, milkL: have.milkL }) }));
  const found = new Map(findMakes({ makes: makes.map(({ facts }) => facts), typed }).map((one) => [one.facts.id, one.alias])); // prettier-ignore
  const choices = chooseMakes({ makes: dated, have }).filter(({ facts }) => found.has(facts.id));
  const longest = Math.max(have.freeMin ?? 0, ...choices.map(({ day }) => day?.keptMin ?? 0));
  const scaleH = Math.min(LONGEST_SCALE_H, Math.max(1, Math.ceil(longest / 60)));
  const rows = choices.map((choice) =>
    rowOf({ ...input, choice, scaleH, foundAs: found.get(choice.facts.id) ?? null }),
  );
  return {
    fitting: rows.filter(({ fits }) => fits),
    others: rows.filter(({ fits }) => !fits),
    scaleH,
    isNothingFound: found.size === 0,
  };
}

function rowOf(
  input: {
    readonly choice: Choice;
    readonly have: ChoosingFacts;
    readonly ownIds: ReadonlySet<string>;
    readonly scaleH: number;
    readonly foundAs: string | null;
  } & Telling,
): MakeRow {
  const { choice, have, ownIds, scaleH, foundAs, say } = input;
  const { facts, day } = choice;
  const share = (minutes: number): number => Math.min(1, minutes / (60 * scaleH));
  return {
    id: facts.id,
    name: facts.name,
    foundAs,
    tag: ownIds.has(facts.id) ? say('makes:own') : null,
    about: facts.about,
    asks: asksOf(choice, input),
    why: choice.reasons.map((reason) => reasonText(reason, have, input)).join(' · '),
    stops: choice.rulings.map((ruling) => rulingText(ruling, input)),
    notes: choice.notes.map((note) => noteText(note, input)),
    fits: choice.fits,
    bar:
      day === null || have.freeMin === null
        ? null
        : { free: share(have.freeMin), likely: share(day.likelyMin), kept: share(day.keptMin) },
  };
}

/** "about 7 h on the first day, 1 h 50 with your hands · skill 3 of 5 · keeps 5 days". */
function asksOf({ facts, day }: Choice, { say, write }: Telling): string {
  const hands = write.duration(facts.handsMin);
  return [
    day === null
      ? say('makes:asks.hands', { hands })
      : say('makes:asks.hours', { total: write.duration(day.likelyMin), hands }),
    say('makes:asks.skill', { difficulty: facts.difficulty }),
    facts.agesDays > 0 ? say('makes:asks.ages', { time: lying(facts.agesDays, say) }) : null,
    say('makes:asks.keeps', { time: lying(facts.keepsDays, say) }),
  ]
    .filter((part) => part !== null)
    .join(' · ');
}

const A_SEASON_DAYS = 70; // our own choice: longer times are told in months
const WEEKS_FROM_DAYS = 14;

/** Days, weeks or months, as one speaks of cheese. */
export function lying(days: number, say: Say): string {
  if (days < WEEKS_FROM_DAYS) return say('makes:lying.days', { count: Math.round(days) });
  if (days < A_SEASON_DAYS) return say('makes:lying.weeks', { count: Math.round(days / 7) });
  return say('makes:lying.months', { count: Math.round(days / 30.4) });
}

function rulingText(ruling: Ruling, { say, write }: Telling): string {
  switch (ruling.code) {
    case 'milk-refused':
      return `${ruling.because} ${ruling.instead}`;
    case 'other-fill':
      return say(`makes:stops.other-fill.${ruling.fill}`);
    case 'other-animal':
      return say('makes:stops.other-animal', { animals: either(ruling.species.map((one) => say(`makes:milkOf.${one}`)), say) }); // prettier-ignore
    case 'other-treatment':
      return say('makes:stops.other-treatment', { treatments: either(ruling.treatments.map((one) => say(`makes:treatments.${one}`)), say) }); // prettier-ignore
    case 'too-long':
      return say('makes:stops.too-long', { more: write.duration(ruling.moreMin), takes: write.duration(ruling.takesMin) }); // prettier-ignore
    case 'meter':
      return say('makes:stops.meter', { step: ruling.step });
    case 'burners':
      return say('makes:stops.burners', { count: ruling.wants });
    case 'ageing-place':
      return say('makes:stops.ageing-place', { time: lying(ruling.days, say) });
    case 'not-ripe':
      return say('makes:stops.not-ripe', { time: lying(ruling.days, say) });
    case 'skill':
      return say('makes:stops.skill', { difficulty: ruling.difficulty });
  }
}

function reasonText(reason: Reason, have: ChoosingFacts, { say, write }: Telling): string {
  switch (reason.code) {
    case 'time-left':
      return say('makes:why.time-left', { time: write.duration(reason.minutes) });
    case 'any-time':
      return say('makes:why.any-time', { time: write.duration(reason.takesMin) });
    case 'no-meter':
      return say(reason.step === null ? 'makes:why.no-meter' : 'makes:why.no-meter-hand');
    case 'easy':
      return say(`makes:why.easy.${have.skill}`);
    case 'own-milk':
    case 'one-burner':
    case 'in-store':
    case 'fresh':
      return say(`makes:why.${reason.code}`);
  }
}

function noteText(note: Note, { say, write }: Telling): MakeRow['notes'][number] {
  switch (note.code) {
    case 'milk':
      return { text: `${note.because} ${note.instead}`, source: note.source };
    case 'to-buy':
      return { text: say('makes:notes.to-buy', { what: and(note.what.map((one) => say(`makes:ingredients.${one}`)), say) }), source: null }; // prettier-ignore
    case 'pot':
      return { text: say('makes:notes.pot', { litres: write.litres(note.litres).text }), source: null };
    case 'tight':
      return { text: say('makes:notes.tight', { time: write.duration(note.minutes) }), source: null };
    case 'stretching':
      return { text: say('makes:notes.stretching', { difficulty: note.difficulty }), source: null };
    case 'second-burner':
      return { text: say('makes:notes.second-burner'), source: null };
  }
}

const listed = (words: readonly string[], last: string): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
const and = (words: readonly string[], say: Say): string => listed(words, say('makes:and'));
const either = (words: readonly string[], say: Say): string => listed(words, say('makes:or'));
