import type { Finding } from '../../../science/finding.ts';
import { isForTheEvening, isNightGone } from '../../../exchange/schedule.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import { preparedAmount } from '../../../forecast/ready-amount.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { readyWritten } from '../plan/amount-written.ts';
import { amountWritten } from './key-numbers.ts';
import { asSaid, type Telling } from './said.ts';

/** One thing to have right before a point of no return. */
export interface ReadyItem {
  /** Item of the `prepared` event. */
  readonly id: string;
  readonly text: string;
  /** An amount or a value shown large. */
  readonly figure: string | null;
  /** A value that is read and noted instead of a tick. */
  readonly reads: 'iceWaterC' | null;
  readonly caution: string | null;
  /** Not ticked but listened to. */
  readonly isBell?: boolean;
  /** Meant for the evening before, which is over. */
  readonly isLate?: boolean;
}

/** A natural pause of the make: everything that must be right before its step begins. At most nine items. */
export interface Pause {
  readonly id: 'evening' | 'milk' | 'culture' | 'rennet' | 'water' | 'stretch';
  readonly title: string;
  readonly stepId: string;
  readonly items: readonly ReadyItem[];
}

export const MOST_ITEMS = 9; // Gawande 2010, The Checklist Manifesto: five to nine items at a pause (seen at second hand)
/** Water heated an hour too soon is cold again: what is not due yet is called for on the card instead (common practice, no source). */
const NOT_SOONER_MIN = 30;
const HOT_WATER_C = 60; // Moritz & Henriques 1947, Am. J. Pathol. 23:695: 3 s to blisters at 60 °C (seen at second hand)

/** The pauses of a make in order, with what belongs to each. */
export function pausesOf(input: {
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  /** Milliseconds UTC; left out, the evening before is still to come. */
  readonly nowAt?: number;
  readonly telling: Telling;
}): readonly Pause[] {
  const anchors = anchorsOf(input.plan);
  const prepared = assignPreparations({ ...input, anchors });
  return anchors.map((anchor) => {
    const items = [
      ...standingItems(anchor, input),
      ...amountItems(anchor, anchors, input),
      ...(prepared.get(anchor.id) ?? []),
    ];
    return {
      id: anchor.id,
      title: input.telling.say(`vat:pause.${anchor.id}`, {
        context: items.some((item) => item.isLate === true) ? 'late' : '',
      }),
      stepId: anchor.step.id,
      items: anchor.id === 'milk' ? [...items.slice(0, MOST_ITEMS - 1), bellItem(input.telling)] : items.slice(0, MOST_ITEMS), // prettier-ignore
    };
  }).filter((pause) => pause.items.length > 0); // prettier-ignore
}

/** Last of all before the milk: the bell, tried beside the running water. */
const bellItem = ({ say }: Telling): ReadyItem => ({
  id: 'milk.bell',
  text: say('vat:ready.milk.bell'),
  figure: null,
  reads: null,
  caution: null,
  isBell: true,
});

/** Items of a pause that nobody has ticked, read or dropped. */
export function openItems(pause: Pause, record: BatchRecord): readonly ReadyItem[] {
  const done = new Set(record.prepared.map((item) => item.item));
  return pause.items.filter((item) => !done.has(item.id));
}

interface Anchor {
  readonly id: Pause['id'];
  readonly step: PlannedStep;
  readonly index: number;
}

const anchors = new WeakMap<Plan, readonly Anchor[]>();

/** Where the pauses stand: a plan says it once, however often its card is worked out. */
function anchorsOf(plan: Plan): readonly Anchor[] {
  const known = anchors.get(plan) ?? findAnchors(plan);
  anchors.set(plan, known);
  return known;
}

/** First step, culture, the run of additions that ends in rennet, hot water, stretching. */
function findAnchors(plan: Plan): readonly Anchor[] {
  const found: Anchor[] = [];
  const put = (id: Pause['id'], index: number): void => {
    const step = plan.steps[index];
    if (step !== undefined) found.push({ id, step, index });
  };
  const adds = (ingredient: string): number =>
    plan.steps.findIndex((step) => step.verb === 'add' && step.set.ingredient === ingredient);
  put('evening', 0);
  put('milk', 0);
  put('culture', adds('culture'));
  let rennet = adds('rennet');
  while (rennet > 0 && plan.steps[rennet - 1]?.verb === 'add' && plan.steps[rennet - 1]?.set.ingredient !== 'culture') {
    rennet--;
  }
  put('rennet', rennet);
  const hot = (step: PlannedStep): boolean => typeof step.set.waterC === 'number' && step.set.waterC >= HOT_WATER_C;
  put(
    'water',
    plan.steps.findIndex((step) => hot(step) && step.verb !== 'stretch'),
  );
  put(
    'stretch',
    plan.steps.findIndex((step) => hot(step) && step.verb === 'stretch'),
  );
  return found;
}

type Asked = Parameters<typeof pausesOf>[0];

/** A preparation as far as the plan alone tells it. */
interface Prepared {
  readonly step: PlannedStep;
  readonly index: number;
  readonly preparation: PlannedStep['prepare'][number];
  readonly isForTheEvening: boolean;
  readonly id: string;
  readonly text: string;
  /** The amount where it is measured out by the plan; null where the forecast has it. */
  readonly figure: string | null;
}

const told = new WeakMap<Plan, { readonly telling: Telling; readonly all: readonly Prepared[] }>();

/** What a plan has prepared, in words: the same for every forecast of it. */
function preparedBy(plan: Plan, telling: Telling): readonly Prepared[] {
  const known = told.get(plan);
  if (known?.telling === telling) return known.all;
  const all = plan.steps.flatMap((step, index) =>
    step.prepare.map((preparation): Prepared => {
      const measured = preparation.amount === 'none' ? measuredOut(step, plan) : undefined;
      return {
        step,
        index,
        preparation,
        isForTheEvening: isForTheEvening(preparation),
        id: `${step.id}.${preparation.id}`,
        text: withKitchen(asSaid(preparation.what, telling), measured?.kitchen?.words),
        figure: measured === undefined ? null : amountWritten(telling, measured).text,
      };
    }),
  );
  told.set(plan, { telling, all });
  return all;
}

function assignPreparations(input: Asked & { readonly anchors: readonly Anchor[] }): Map<Pause['id'], ReadyItem[]> {
  const { plan, forecast, anchors, telling, nowAt = Number.NEGATIVE_INFINITY } = input;
  const nowMin = (nowAt - telling.zeroAt) / 60_000;
  const starts = new Map(forecast?.steps.map(({ stepId, startMin }) => [stepId, startMin.p50]));
  const startOf = (stepId: string): number => starts.get(stepId) ?? Number.NaN;
  const assigned = new Map<Pause['id'], ReadyItem[]>();
  for (const { step, index, preparation, ...prepared } of preparedBy(plan, telling)) {
    const lead = preparation.leadMinutes.value;
    const fits = (anchor: Anchor): boolean =>
      anchor.id !== 'evening' && anchor.index <= index && startsInTime(anchor, startOf, step.id, lead);
    const anchor = prepared.isForTheEvening ? anchors.find((one) => one.id === 'evening') : anchors.findLast(fits);
    if (anchor === undefined) continue;
    const items = assigned.get(anchor.id) ?? [];
    const ready = prepared.figure === null ? preparedAmount({ plan, forecast, step, preparation }) : null;
    const isLate = isNightGone({ preparation, leftMin: startOf(step.id) - nowMin });
    items.push({
      id: prepared.id,
      text: prepared.text,
      figure: prepared.figure ?? (ready === null ? null : readyWritten(ready, telling).text),
      reads: null,
      caution: isLate ? asSaid(preparation.ifLate ?? telling.say('vat:ready.late'), telling) : null,
      isLate,
    });
    assigned.set(anchor.id, items);
  }
  return assigned;
}

/** A pause comes early enough for a preparation when its own step starts before the preparation must begin. */
function startsInTime(anchor: Anchor, startOf: (stepId: string) => number, stepId: string, lead: number): boolean {
  if (anchor.step.id === stepId) return true;
  const gap = startOf(stepId) - startOf(anchor.step.id);
  return !Number.isFinite(gap) || (gap >= lead && gap <= lead + NOT_SOONER_MIN);
}

/** The amount that a step's own "measured and ready" preparation stands for, so that it is not asked for twice. */
function measuredOut(step: PlannedStep, plan: Plan): Plan['amounts'][number] | undefined {
  if (step.verb !== 'add' || !step.prepare.some((preparation) => preparation.amount === 'none')) return undefined;
  return plan.amounts.find((amount) => amount.stepId === step.id && amount.id === step.set.ingredient);
}

const withKitchen = (text: string, kitchen: string | undefined): string =>
  kitchen === undefined ? text : `${text}: ${kitchen}`;

function amountItems(anchor: Anchor, anchors: readonly Anchor[], { plan, telling }: Asked): ReadyItem[] {
  if (anchor.id === 'evening') return [];
  const next = anchors.find((one) => one.index > anchor.index);
  const until = next?.index ?? plan.steps.length;
  return plan.amounts
    .filter((amount) => {
      const index = plan.steps.findIndex((step) => step.id === amount.stepId);
      const step = plan.steps[index];
      return step?.verb === 'add' && index >= anchor.index && index < until && measuredOut(step, plan) !== amount;
    })
    .map((amount) => ({
      id: `amount.${amount.id}`,
      text: withKitchen(telling.say(`vat:ready.amount.${amount.id}`), amount.kitchen?.words),
      figure: amountWritten(telling, amount).text,
      reads: null,
      caution: null,
    }));
}

function standingItems(anchor: Anchor, input: Asked): ReadyItem[] {
  const { plan, forecast, telling } = input;
  const { say, write } = telling;
  const tick = (
    id: string,
    values: Record<string, string | number> = {},
    caution: string | null = null,
  ): ReadyItem => ({
    id: `${anchor.id}.${id}`,
    text: say(`vat:ready.${anchor.id}.${id}`, values),
    figure: null,
    reads: null,
    caution,
  });
  const filledKg = forecast?.needs.filledPotKg;
  const weight = filledKg === undefined || filledKg === null ? null : write.kilograms(filledKg.p95).text;
  switch (anchor.id) {
    case 'evening':
      return [];
    case 'milk':
      return [
        tick('hands'),
        tick('surfaces'),
        tick('carton'),
        { ...tick('thermometer'), reads: 'iceWaterC' },
        ...(plan.setup.pHMeter ? [tick('meter')] : []),
        { ...tick('pot'), figure: weight },
      ];
    case 'culture':
      return [tick('packet')];
    case 'rennet':
      return [tick('cool'), tick('bottle'), tick('blade')];
    case 'water':
    case 'stretch':
      return [
        { ...tick('where'), figure: weight },
        tick('who', {}, plan.setup.children ? say('vat:ready.children') : null),
        tick('words'),
        ...(anchor.id === 'stretch' ? [tick('cold')] : []),
      ];
  }
}

/** The ice-water value as advice: how far the thermometer is out. */
export function iceWaterAdvice(input: {
  readonly readsC: number;
  readonly telling: Telling;
}): { readonly text: string; readonly offsetC: number } | null {
  const { readsC, telling } = input;
  if (Math.abs(readsC) < 0.25) return null;
  const { say, write } = telling;
  const key = readsC > 0 ? 'vat:ready.iceHigh' : 'vat:ready.iceLow';
  return {
    text: say(key, { reads: write.number(readsC, 1), out: write.number(Math.abs(readsC), 1) }),
    offsetC: -readsC,
  };
}

/** The cautions that stand on a step, in words; the worst first. */
export function cautionsFor(input: {
  readonly findings: readonly Finding[];
  readonly step: PlannedStep;
  readonly telling: Telling;
}): readonly string[] {
  const order = { stop: 0, caution: 1, info: 2 } as const;
  return input.findings
    .filter((finding) => finding.severity !== 'info' && input.step.cautions.includes(finding.code))
    .sort((a, b) => order[a.severity] - order[b.severity])
    .map((finding) => input.telling.say(`findings:${finding.code}`, finding.fields));
}
