/** An explanation in plain words: what the screen and the command line both say. */
import type { Evidence, Explanation, Ranked } from '../forecast/explain.ts';
import type { ClueAbout } from '../forecast/explain-clue.ts';
import type { Plan } from '../make/plan.ts';
import type { Say } from './words.ts';
import type { Writer } from './written.ts';

export interface ExplainedRow {
  readonly id: string;
  readonly name: string;
  /** Of 20 records like this one; rounded. */
  readonly inTwenty: number;
  readonly chance: string;
  /** The causes of a family, where the record cannot tell them apart. */
  readonly inside: string | null;
  readonly speaksFor: readonly string[];
  readonly speaksAgainst: readonly string[];
}

export interface Explained {
  readonly verdict: string;
  /** The likeliest, nothing unusual always among them. */
  readonly rows: readonly ExplainedRow[];
  readonly others: readonly ExplainedRow[];
  readonly question: { readonly id: string; readonly text: string } | null;
  readonly apart: string | null;
  readonly change: { readonly cause: string; readonly text: string } | null;
}

interface Telling {
  readonly say: Say;
  readonly write: Writer;
  readonly plan: Plan;
}

/** So many causes stand at the top; less likely ones than this fold away sooner. Our own choice. */
const MOST_ROWS = 3;
const LEAST_SHOWN = 0.025; // half a dot of twenty

export function explained(input: { readonly explanation: Explanation } & Telling): Explained {
  const { explanation, say } = input;
  const { ranked, verdict, question, change } = explanation;
  const causes = ranked.filter(({ kind }) => kind !== 'nothing');
  const top = new Set(
    causes.slice(0, MOST_ROWS).filter(({ probability }, at) => at === 0 || probability >= LEAST_SHOWN),
  );
  const shown = ranked.filter((one) => one.kind === 'nothing' || top.has(one));
  const first = causes[0];
  return {
    verdict: say(`explain:verdict.${verdict}`, { cause: first === undefined ? '' : lower(nameOf(first, say)) }),
    rows: shown.map((one) => rowOf(one, input)),
    others: causes.filter((one) => !top.has(one)).map((one) => rowOf(one, input)),
    question: question === null ? null : { id: question.id, text: say(`explain:question.${question.id}`) },
    apart: apartText(input),
    change: change === null ? null : { cause: change, text: capital(say(`explain:cause.${change}.try`)) },
  };
}

function nameOf({ id, kind }: Pick<Ranked, 'id' | 'kind'>, say: Say): string {
  if (kind === 'nothing') return say('explain:nothing');
  return kind === 'family' ? say(`explain:family.${id}`) : say(`explain:cause.${id}.name`);
}

function rowOf(ranked: Ranked, telling: Telling): ExplainedRow {
  const { say } = telling;
  const inTwenty = Math.round(20 * ranked.probability);
  const isFamily = ranked.kind === 'family';
  return {
    id: ranked.id,
    name: nameOf(ranked, say),
    inTwenty,
    chance: inTwenty === 0 ? say('explain:underOne') : say('explain:inTwenty', { count: inTwenty }),
    inside: isFamily ? ranked.causes.map(({ id }) => say(`explain:cause.${id}.name`)).join('; ') : null,
    speaksFor: ranked.speaksFor.map((evidence) => evidenceText(evidence, 'for', telling)),
    speaksAgainst: ranked.speaksAgainst.map((evidence) => evidenceText(evidence, 'against', telling)),
  };
}

const MOST_TIMES = 100;

function evidenceText(evidence: Evidence, side: 'for' | 'against', telling: Telling): string {
  const { say } = telling;
  const { times } = evidence;
  const written = times >= 2 ? times.toFixed(0) : telling.write.number(times, 1);
  const told = times > MOST_TIMES ? say('explain:times.most', { times: MOST_TIMES }) : written;
  return `${capital(clueText(evidence, telling))} (${say(`explain:times.${side}`, { times: told })})`;
}

function clueText({ about, foreseen }: Evidence, telling: Telling): string {
  const { say, write, plan } = telling;
  switch (about.kind) {
    case 'reading': {
      const what = `${say(`record:quantity.${about.quantity}`)} ${say(`record:sample.${about.sample}`)}`;
      const value = (of: number): string => valueText(about.quantity, of, write);
      return say('explain:clue.reading', {
        what,
        came: value(about.value),
        foreseen: value(foreseen?.p50 ?? Number.NaN),
      });
    }
    case 'lasted':
      return lastedText(about, foreseen?.p50 ?? about.minutes, telling);
    case 'judgement': {
      const grade = say(`vat:judge.${about.judgement}.${about.grade}.name`);
      const at = write.duration(about.elapsedMin);
      return say('explain:clue.judgement', { judgement: say(`record:judgement.${about.judgement}`), grade, at });
    }
    case 'dose': {
      const percent = Math.round(100 * about.fractionOfPlan);
      return say('explain:clue.dose', { percent, ingredient: say(`record:ingredient.${about.ingredient}`) });
    }
    case 'noted': {
      const ingredient = say(`record:ingredient.${about.ingredient}`);
      return say(about.isNoted ? 'explain:clue.noted' : 'explain:clue.notNoted', { ingredient });
    }
    case 'fault':
      return say(about.isThere ? 'explain:clue.fault' : 'explain:clue.noFault', {
        fault: lower(say(`explain:fault.${about.fault}`)),
      });
  }
  // A kind that is missing here does not compile.
  return about satisfies never;

  function lastedText(lasted: ClueAbout & { kind: 'lasted' }, foreseenMin: number, { say }: Telling): string {
    const step = plan.steps.find(({ id }) => id === lasted.stepId)?.name ?? lasted.stepId;
    const minutes = Math.round(lasted.minutes);
    const by = Math.round(lasted.minutes - foreseenMin);
    if (!lasted.isOver) return say('explain:clue.stillRunning', { step, minutes, foreseen: Math.round(foreseenMin) });
    if (Math.abs(by) < SAME_MIN) return say('explain:clue.lastedSo', { step, minutes });
    return say(by > 0 ? 'explain:clue.lastedLonger' : 'explain:clue.lastedShorter', {
      step,
      minutes,
      by: Math.abs(by),
    });
  }
}

const SAME_MIN = 2;

function valueText(quantity: string, value: number, write: Writer): string {
  switch (quantity) {
    case 'pH':
      return write.pH(value).text;
    case 'temperatureC':
    case 'iceWaterC':
      return write.temperature(value).text;
    case 'massKg':
      return write.kilograms(value).text;
    case 'wheyL':
      return write.litres(value).text;
    case 'flocculationMin':
      return `${write.number(value, value < 20 ? 1 : 0)}\u202Fmin`;
    default:
      return write.number(value, 1);
  }
}

function apartText({ explanation, say, write, plan }: { readonly explanation: Explanation } & Telling): string | null {
  const { apart } = explanation;
  if (apart === null) return null;
  const step = plan.steps.find(({ id }) => id === apart.stepId)?.name ?? '';
  const value = (of: number): string => missingText(apart.id, of, { say, write });
  const [a, b] = apart.between.map((id) => lower(id === 'nothing' ? say('explain:nothing') : say(`explain:cause.${id}.name`))); // prettier-ignore
  const what = say(`explain:missing.${apart.id}`, { step });
  return say('explain:missing.line', {
    what,
    a: value(apart.first),
    b: value(apart.second),
    first: a ?? '',
    second: b ?? '',
  });
}

function missingText(id: string, value: number, { say, write }: Pick<Telling, 'say' | 'write'>): string {
  switch (id) {
    case 'ice-water':
    case 'temperatureC':
      return write.temperature(plain(value)).text.replace(/^-/, '\u2212');
    case 'stretch-water':
    case 'brine-temperature':
      return write.degrees(value).text;
    case 'pH':
      return write.pH(value).text;
    case 'buffer':
      return `${value > 0 ? '+' : value < 0 ? '\u2212' : ''}${write.number(Math.abs(value), 2)}`;
    case 'flecks':
      return `${write.number(value, 0)}\u202Fmin`;
    case 'whey':
      return write.litres(value).text;
    case 'curd-weight':
      return write.kilograms(value).text;
    case 'brine-strength':
      return say('explain:missing.percent', { percent: Math.round(value) });
    default:
      return say('explain:missing.percent', { percent: Math.round(100 * value) });
  }
}

/** A sentence's first letter; "pH" stays as it is. */
const capital = (text: string): string =>
  text.startsWith('pH') ? text : `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
const lower = (text: string): string => `${text.slice(0, 1).toLowerCase()}${text.slice(1)}`;
/** Without a sign on nothing. */
const plain = (value: number): number => (Math.abs(value) < 0.05 ? 0 : value);
