/**
 * The hand-out of a make: all that somebody at another stove needs, on two sides, resting on nobody's packet, burner or
 * pot. Contents after the trade notes, section 7.1.
 */
import { JUDGEMENT_GRADES } from '../../make/judgement.ts';
import type { Make } from '../../make/make.ts';
import { MISHAPS, type Mishap } from '../../make/mishaps.ts';
import type { Plan, PlannedStep } from '../../make/plan.ts';
import type { Forecast } from '../../forecast/forecast.ts';
import { coldBox, notForBox } from './eater.ts';
import { el, type PaperElement, type PaperSheet } from './element.ts';
import { box, facts, head, list, para, section, table } from './parts.ts';
import { keptAt, neutralDoses } from './neutral-doses.ts';
import { judgementsOf } from './student-sheet.ts';
import { endText, kilograms, litres, sentence, settingsOf, type Told } from './step-words.ts';

/** Sizes that the doses are given for. Our own choice: a kitchen pot, a class pot, a small vat. */
export const HAND_OUT_SIZES_L = [4, 10, 20] as const;
const MOST_FAILURES = 4;

/** What the writer says of the make beside the make itself. */
export interface HandOutNotes {
  /** "Made 3 times with 8 to 12 L": left out where nobody says. */
  readonly madeBy?: readonly string[];
  readonly batchCode?: string;
  /** An address that opens the make in Plan. */
  readonly address?: string;
  /** Minutes seen, by step: told as a span in place of the make's one figure. */
  readonly seenMin?: ReadonlyMap<string, { readonly low: number; readonly high: number }>;
}

export function handOutSheet(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly notes: HandOutNotes;
  readonly told: Told;
}): PaperSheet {
  const { plan, told, notes } = input;
  const { say } = told;
  const { make } = plan;
  return {
    id: 'hand-out',
    title: make.name,
    head: [make.name, notes.batchCode ?? ''].filter((one) => one !== '').join(', '),
    isOnePage: false,
    isClose: true,
    body: [
      head({ title: make.name, under: say('paper:handOut.under', { family: say(`makes:families.${make.family}`), aliases: make.aliases.join(', '), context: make.aliases.length === 0 ? 'alone' : '' }) }),
      para(make.about),
      shopping(make, told),
      doses(make, told),
      section(say('paper:handOut.steps'), steps(input)),
      looks(plan.steps, told),
      failures(plan.steps, told),
      el('div', 'paper-two', notForBox({ make, treatment: plan.setup.milk.treatment, told }), coldBox(told)),
      section(say('paper:home.keep'), para(say('labels:keep', { temperature: keptAt(make, told) })), para(sentence(told, make.shelfLife.note)), para(say('paper:home.spoiled'))),
      section(say('paper:handOut.whey'), para(say('paper:handOut.wheyUse'))),
      section(say('paper:handOut.record'), facts(['date', 'milk', 'start', 'end', 'weight', 'taste'].map((id) => ({ name: say(`paper:handOut.strip.${id}`), value: null })))),
      section(say('paper:handOut.from'), list([...(notes.madeBy ?? []), say('paper:handOut.version', { id: make.id, version: make.version }), ...make.sources], 'paper-list paper-small'), notes.address === undefined ? null : para(notes.address, 'paper-address')),
    ].filter((one) => one !== null),
  };
} // prettier-ignore

function shopping(make: Make, told: Told): PaperElement {
  const { say } = told;
  const { buy, avoid } = make.milk.cartonWords;
  const refused = make.milk.deviations.filter(({ effect }) => effect === 'refuse').map(({ because, instead }) => `${sentence(told, because)} ${sentence(told, instead)}`); // prettier-ignore
  return section(
    say('paper:handOut.milk'),
    para(say('plan-text:shopping.buy', { words: buy.join(', ') })),
    para(say('plan-text:shopping.avoid', { words: avoid.join(', ') }), 'paper-loud'),
    refused.length === 0 ? null : list(refused),
  );
}

function doses(make: Make, told: Told): PaperElement {
  const { say } = told;
  const columns = HAND_OUT_SIZES_L.map((volumeL) => neutralDoses({ make, volumeL, told }));
  const perL = make.aims.find(({ quantity }) => quantity === 'cheesePerMilkKgPerL');
  const gives = perL === undefined ? [] : [[say('paper:handOut.gives'), ...HAND_OUT_SIZES_L.map((volumeL) => say('record:span', { low: kilograms(told, perL.low * volumeL), high: kilograms(told, perL.high * volumeL) }))]];
  return section(
    say('paper:handOut.amounts'),
    table({
      head: [say('paper:home.milk'), ...HAND_OUT_SIZES_L.map((volumeL) => litres(told, volumeL))],
      rows: [...(columns[0] ?? []).map(({ name }, index) => [name, ...columns.map((of) => of[index]?.value ?? null)]), ...gives],
    }),
    para(say('paper:handOut.neutral'), 'paper-small'),
  );
} // prettier-ignore

function steps({ plan, forecast, notes, told }: Parameters<typeof handOutSheet>[0]): PaperElement[] {
  const foreseen = new Map(forecast.steps.map((step) => [step.stepId, step]));
  return plan.steps.map((step, index) => {
    const ahead = foreseen.get(step.id);
    const seen = notes.seenMin?.get(step.id);
    const after = ahead === undefined || !Number.isFinite(ahead.startMin.p5) ? '' : afterText(ahead.startMin, told);
    const lasts = seen === undefined ? '' : told.say('paper:handOut.seen', { low: told.write.duration(seen.low), high: told.write.duration(seen.high), context: seen.low === seen.high ? 'one' : '' });
    const until = endText({ step, plan, isMetered: true, told });
    const figures = settingsOf(step, told);
    return el(
      'div',
      'paper-step',
      el('span', 'paper-number', String(index + 1)),
      el(
        'div',
        '',
        el('p', '', el('strong', '', step.name), ` ${sentence(told, step.how)} `, figures.map(({ name, value }, at) => el('span', '', `${at === 0 ? begun(name) : `; ${name}`} `, el('strong', '', value))), figures.length === 0 ? null : '. ', [until, lasts, after].filter((one) => one !== '').join(' ')),
        el('p', 'paper-small', sentence(told, step.why)),
      ),
    );
  });
} // prettier-ignore

/** A sentence begins with a capital. */
const begun = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** When a step begins after the first, as a span: bands of many such makes, not of one kitchen's clock. */
function afterText({ p5, p95 }: { readonly p5: number; readonly p95: number }, { say, write }: Told): string {
  const low = Math.floor(p5 / 5) * 5;
  if (!Number.isFinite(p95)) return say('paper:handOut.afterOpen', { low: write.duration(low) });
  const high = Math.ceil(p95 / 5) * 5;
  if (high === 0) return '';
  return say('paper:handOut.after', {
    low: write.duration(low),
    high: write.duration(high),
    context: low === high ? 'one' : '',
  });
}

/** How one knows without an instrument: each judgement with its grades and what they look like. */
function looks(of: readonly PlannedStep[], { say }: Told): PaperElement | null {
  const asked = [...new Set(of.flatMap(judgementsOf))];
  if (asked.length === 0) return null;
  return section(
    say('paper:handOut.looks'),
    asked.map((judgement) =>
      el(
        'p',
        '',
        el('strong', '', say(`vat:judge.${judgement}.title`)),
        ` ${say(`vat:judge.${judgement}.how`)} `,
        JUDGEMENT_GRADES[judgement].map((grade) => `${say(`vat:judge.${judgement}.${grade}.name`)}: ${say(`vat:judge.${judgement}.${grade}.cue`)}`).join('; '),
        '.',
      ),
    ),
  );
} // prettier-ignore

/** The failures that these verbs know: what may be unsafe first, then what the curd itself shows, the latest of the make before the earlier. */
function failures(of: readonly PlannedStep[], told: Told): PaperElement | null {
  const place = ({ likelyIn }: Mishap): number => of.map(({ verb }) => likelyIn.includes(verb)).lastIndexOf(true);
  const weight = ({ mayBeUnsafe, means }: Mishap): number => (mayBeUnsafe ? 2 : typeof means === 'object' && means !== null ? 1 : 0);
  const fitting = MISHAPS.filter((mishap) => place(mishap) !== -1 && mishap.asks.length === 0)
    .sort((a, b) => weight(b) - weight(a) || place(b) - place(a))
    .slice(0, MOST_FAILURES);
  if (fitting.length === 0) return null;
  const fixes = fitting.map(({ id, choices }) => {
    const plain = choices.flatMap((choice) => {
      const values = Object.fromEntries(Object.entries(choice.degreesC ?? {}).map(([name, degreesC]) => [name, told.both.temperature(degreesC).text]));
      const text = told.say(`vat:mishap.${id}.${choice.id}`, { wanted: told.say('paper:handOut.wanted'), minutes: told.write.duration(choice.minutes ?? 0), ...values });
      return [sentence(told, text)];
    });
    return el('p', '', el('strong', '', `${told.say(`vat:mishap.${id}.name`)}. `), plain[0] ?? told.say('paper:handOut.noFix'));
  });
  return box(told.say('paper:handOut.failures'), ...fixes);
} // prettier-ignore
