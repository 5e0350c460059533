/** The instructor's run of a class: every pot's steps on one clock, water to heat, who is in danger, and the board at the end. */
import { preparedAmount } from '../../forecast/ready-amount.ts';
import type { PlannedStep } from '../../make/plan.ts';
import { preparationsOf } from '../schedule.ts';
import { el, type PaperContent, type PaperElement, type PaperSheet } from './element.ts';
import { spanText, type PotPlan } from './get-ready.ts';
import { box, facts, head, lines, list, para, section, table } from './parts.ts';
import { HANDS_C, isHot, judgementsOf } from './student-sheet.ts';
import { degrees, quantityText, sentence, stepsOfDay, type Told } from './step-words.ts';

/** One pot of the class. */
export interface RunPot extends PotPlan {
  readonly potId: string;
  /** The last step of the day; all where undefined. */
  readonly lastStepId: string | undefined;
  /** Steps that somebody else has put on the clock (a planned day), milliseconds UTC by step; the pot's own forecast where it says nothing. */
  readonly startsAt?: ReadonlyMap<string, number>;
}

/** A step of one pot on the clock. */
export interface RunEvent {
  readonly pot: RunPot;
  readonly step: PlannedStep;
  readonly number: number;
  readonly at: number;
  readonly endAt: number;
}

const MINUTE_MS = 60_000;
/** Starts within so many minutes stand in one row: what one pair of hands does in one round. Our own choice. */
const ROW_MIN = 5;
/** One grown-up to so many bowls of hot water: common practice (no source). */
const BOWLS_TO_A_GROWN_UP = { low: 2, high: 3 };

/** Every step of every pot in clock order. */
export function runEvents(pots: readonly RunPot[]): readonly RunEvent[] {
  return pots
    .flatMap((pot) => {
      const foreseen = new Map(pot.forecast.steps.map((step) => [step.stepId, step]));
      return stepsOfDay(pot).flatMap((step, index): RunEvent[] => {
        const ahead = foreseen.get(step.id);
        const at = pot.startsAt?.get(step.id) ?? instant(pot, ahead?.startMin.p50);
        if (at === null) return [];
        const lengthMin = ahead === undefined ? 0 : Math.max(0, ahead.endMin.p50 - ahead.startMin.p50);
        return [{ pot, step, number: index + 1, at, endAt: at + (Number.isFinite(lengthMin) ? lengthMin : 0) * MINUTE_MS }]; // prettier-ignore
      });
    })
    .sort((a, b) => a.at - b.at);
}

const instant = ({ zeroAt }: RunPot, minute: number | undefined): number | null =>
  minute === undefined || !Number.isFinite(minute) ? null : zeroAt + minute * MINUTE_MS;

/** Rows of the clock, and what each pot begins in it. */
export function runRows(events: readonly RunEvent[]): readonly { readonly at: number; readonly events: readonly RunEvent[] }[] {
  const rows: { at: number; events: RunEvent[] }[] = [];
  for (const event of events) {
    const last = rows.at(-1);
    if (last !== undefined && event.at - last.at < ROW_MIN * MINUTE_MS) last.events.push(event);
    else rows.push({ at: event.at, events: [event] });
  }
  return rows;
} // prettier-ignore

/** Pots on a fire at a moment: steps that need the burner and are under way. */
export const firesAt = (events: readonly RunEvent[], at: number): number =>
  new Set(events.filter((one) => one.step.kit.includes('burner') && one.at <= at && one.endAt > at).map(({ pot }) => pot.potId)).size; // prettier-ignore

export function classRunSheet(input: {
  readonly pots: readonly RunPot[];
  /** How many fires there are; null while nobody has said. */
  readonly burners: number | null;
  /** Sentences on what clashes, from who watches over the pots. */
  readonly clashes: readonly string[];
  readonly told: Told;
}): PaperSheet {
  const { pots, told, burners, clashes } = input;
  const { say, write } = told;
  const events = runEvents(pots);
  const [first] = pots;
  const names = [...new Set(pots.map(({ plan }) => plan.make.name))].join(', ');
  return {
    id: 'run',
    title: say('paper:run.title'),
    head: names,
    isOnePage: false,
    body: [
      head({
        title: say('paper:run.title'),
        under: say('paper:ready.under', { names, count: pots.length, day: first === undefined ? '' : write.day(first.zeroAt) }),
      }),
      facts(['teacher', 'helperA', 'helperB'].map((who) => ({ name: say(`paper:run.${who}`), value: null }))),
      hazards(pots, told),
      clashes.length === 0 ? null : box(say('paper:run.clashes'), list(clashes)),
      section(say('paper:run.before'), before(pots, told)),
      section(say('paper:run.clock'), el('div', 'paper-scroll', grid({ events, pots, burners, told })), para(say('paper:run.how'), 'paper-small')),
      section(say('paper:run.talk'), talk(events, told)),
      section(say('paper:run.swap'), para(say(pots.some(({ plan }) => plan.steps.some(({ verb }) => verb === 'stretch')) ? 'paper:run.swapStretch' : 'paper:run.swapAny'))),
      section(say('paper:run.board'), board(pots, told), lines(say('paper:run.lesson'), 2)),
      section(say('paper:run.end'), list([say('paper:run.endTaste'), say('paper:run.endLabel'), say('paper:run.endCold'), say('paper:run.endWash')])),
    ].filter((one) => one !== null),
  };
} // prettier-ignore

/** Pots side by side, the clock down the page. */
function grid(input: {
  readonly events: readonly RunEvent[];
  readonly pots: readonly RunPot[];
  readonly burners: number | null;
  readonly told: Told;
}): PaperElement {
  const { events, pots, burners, told } = input;
  const { say, write } = told;
  const cell = (here: readonly RunEvent[]): PaperContent =>
    el('span', '', here.map(({ step, number }, index) => el('span', '', `${index === 0 ? '' : '; '}${number}\u00A0${step.name}`)));
  return table({
    kind: 'paper-run',
    head: [say('paper:run.time'), ...pots.map(({ name }, index) => name ?? say('paper:potNumber', { number: index + 1 })), say('paper:run.fires'), say('paper:run.who')],
    rows: runRows(events).map(({ at, events: here }) => {
      const fires = firesAt(events, Math.max(...here.map((one) => one.at)));
      return [
        el('span', 'paper-time', write.clock(at)),
        ...pots.map((pot) => cell(here.filter((one) => one.pot.potId === pot.potId))),
        fires === 0 ? '' : burners === null ? String(fires) : say('paper:run.firesOf', { fires, burners }),
        null,
      ];
    }),
  });
} // prettier-ignore

/** What is begun before and beside the steps: water on, milk out, by the early end of the step that wants it. */
function before(pots: readonly RunPot[], told: Told): PaperElement {
  const rows = pots.flatMap((pot) =>
    preparationsOf(pot).map((timed) => {
      const ready = preparedAmount({ plan: pot.plan, forecast: pot.forecast, step: timed.step, preparation: timed.preparation });
      const isAhead = timed.isEveningBefore || timed.isTooLate;
      return {
        id: timed.id,
        at: isAhead ? Number.NEGATIVE_INFINITY : pot.zeroAt + timed.startMin * MINUTE_MS,
        when: isAhead ? told.say('plan-text:ready.evening') : told.write.clock(pot.zeroAt + timed.startMin * MINUTE_MS),
        pot: pot.name ?? '',
        what: sentence(told, timed.preparation.what),
        amount: ready === null ? '' : quantityText({ unit: ready.unit, value: ready.value, told }),
      };
    }),
  );
  const lines = new Map<string, { whens: string[]; what: string; amount: string; pots: string[] }>();
  for (const { id, when, what, amount, pot } of [...rows].sort((one, other) => one.at - other.at)) {
    const key = `${id}|${what}|${amount}`;
    const line = lines.get(key) ?? { whens: [], what, amount, pots: [] };
    lines.set(key, { ...line, whens: [...line.whens, when], pots: [...line.pots, pot] });
  }
  return table({
    kind: 'paper-run',
    head: ['time', 'what', 'amount', 'pots', 'who'].map((id) => told.say(`paper:run.${id}`)),
    rows: [...lines.values()].map(({ whens, what, amount, pots: of }) => [
      el('span', 'paper-time', spanText(whens)),
      what,
      of.length > 1 && amount !== '' ? told.say('paper:ready.each', { count: of.length, amount }) : amount,
      of.join(', '),
      null,
    ]),
  });
} // prettier-ignore

/** What must be said before anybody lights a fire; burns by the tables of Moritz & Henriques 1947, at second hand. */
function hazards(pots: readonly RunPot[], told: Told): PaperElement {
  const { say, write } = told;
  const hot = pots.some(({ plan }) => isHot(plan.steps));
  const raw = pots.some(({ plan }) => plan.setup.milk.treatment === 'raw');
  return box(
    say('paper:run.hazards'),
    list([
      ...(hot
        ? [say('paper:run.burns', { at: degrees(told, 60) }), say('paper:run.pourer', { hands: write.degrees(HANDS_C).text }), say('paper:run.ratio', BOWLS_TO_A_GROWN_UP)]
        : []),
      say('paper:run.route'),
      say('paper:run.cool'),
      ...(raw ? [say('findings:class-no-tasting')] : []),
      say('paper:eater.local'),
    ]),
  );
} // prettier-ignore

/** What there is to tell while the pots wait: each step's own reason, once a verb. */
function talk(events: readonly RunEvent[], told: Told): PaperElement {
  const { write } = told;
  const waits = events.filter(({ step, at, endAt }) => endAt - at >= 8 * MINUTE_MS && step.why !== '');
  const first = [...new Map([...waits].reverse().map((one) => [one.step.verb, one])).values()].sort((a, b) => a.at - b.at);
  return list(first.map(({ at, step }) => el('span', '', el('strong', '', `${write.clock(at)} `), sentence(told, step.why))));
} // prettier-ignore

/** Every pot's figures side by side: the best lesson of the day. */
function board(pots: readonly RunPot[], told: Told): PaperElement {
  const { say } = told;
  const asked = [...new Set(pots.flatMap(({ plan }) => plan.steps.flatMap(judgementsOf)))];
  const hasSet = pots.some(({ plan }) => plan.steps.some(({ verb }) => verb === 'set'));
  const columns = [
    ...(hasSet ? [say('paper:run.flecks')] : []),
    ...(pots.some(({ plan }) => plan.setup.pHMeter) ? ['pH'] : []),
    ...asked.map((judgement) => say(`record:judgement.${judgement}`)),
    say('paper:run.weight'),
    say('paper:run.taste'),
  ];
  return table({
    kind: 'paper-run',
    head: [say('paper:student.pot'), ...columns],
    rows: pots.map(({ name }, index) => [name ?? String(index + 1), ...columns.map(() => null)]),
  });
}
