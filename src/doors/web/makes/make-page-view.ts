/** One make as its own page tells it: what it is, what to look for on the carton, the steps in short, aims, sources. */
import { sentenceInUnits } from '../../../make/sentence.ts';
import { sourceWords, makeFacts } from '../../../make/make-facts.ts';
import type { Aim, Make } from '../../../make/make.ts';
import { planMake } from '../../../make/planning.ts';
import type { Step } from '../../../make/step.ts';
import { untilText } from '../vat/until.ts';
import { lying, type Telling } from './makes-view.ts';

export interface MakePageView {
  readonly name: string;
  readonly family: string;
  readonly about: string;
  readonly status: string;
  /** Other names, protected ones among them; the page never takes one for its own. */
  readonly aliases: readonly string[];
  readonly asks: readonly string[];
  readonly carton: { readonly buy: readonly string[]; readonly avoid: readonly string[] };
  readonly deviations: readonly { readonly text: string; readonly isRefused: boolean; readonly source: string }[];
  readonly steps: readonly StepLine[];
  readonly aims: readonly AimLine[];
  readonly keeps: string;
  readonly sources: readonly string[];
}

export interface StepLine {
  readonly id: string;
  readonly name: string;
  readonly how: string;
  readonly until: string;
  readonly why: string;
  /** What to take care of, by short names; empty where the step carries none. */
  readonly cautions: string;
}

export interface AimLine {
  readonly id: string;
  readonly what: string;
  readonly aim: string;
  readonly span: string;
  readonly source: string;
}

const SHOWN_L = 10; // the page tells of ends, not of amounts; any number of litres gives the same

/** The page of a make, its figures in the reader's units. */
export function makePageView(input: { readonly make: Make } & Telling): MakePageView {
  const { make, say, write } = input;
  const inUnits = (text: string): string => sentenceInUnits({ text, units: write.units });
  const facts = makeFacts(make);
  const { shelfLife } = make;
  return {
    name: make.name,
    family: say(`makes:families.${make.family}`),
    about: inUnits(make.about),
    status: say(`makes:status.${make.status}`),
    aliases: make.aliases,
    asks: [
      say('makes:asks.skill', { difficulty: make.difficulty }),
      say('makes:asks.hands', { hands: write.duration(facts.handsMin) }),
      ...(facts.agesDays > 0 ? [say('makes:asks.ages', { time: lying(facts.agesDays, say) })] : []),
    ],
    carton: make.milk.cartonWords,
    deviations: make.milk.deviations.map(({ effect, because, instead, source }) => ({
      text: inUnits(`${because} ${instead}`),
      isRefused: effect === 'refuse',
      source: sourceWords(make, source),
    })),
    steps: stepLines(input),
    aims: make.aims.map((aim, index) => aimLine(aim, index, input)),
    keeps: inUnits(
      say('makes:page.keeps', {
        time: lying(shelfLife.days.value, say),
        temperature: write.degrees(shelfLife.keptAtC.value).text,
        note: shelfLife.note,
      }),
    ),
    sources: make.sources,
  };
}

/** Each step with its end as the vat will tell it to somebody with a meter. */
function stepLines({ make, say, write }: { readonly make: Make } & Telling): StepLine[] {
  const treatment = make.milk.treatments[0] ?? 'pasteurised';
  const plan = planMake({ make, answers: { milk: { volumeL: SHOWN_L, treatment }, instruments: { pHMeter: true } } });
  const planned = new Map(plan.steps.map((step) => [step.id, step]));
  const inUnits = (text: string): string => sentenceInUnits({ text, units: write.units });
  return make.steps.map((step: Step) => {
    const own = planned.get(step.id);
    return {
      id: step.id,
      name: step.name,
      how: inUnits(step.how),
      until: own === undefined ? '' : untilText({ step: own, plan, telling: { say, write, zeroAt: 0 } }),
      why: inUnits(step.why),
      cautions:
        step.cautions.length === 0
          ? ''
          : say('makes:page.cautions', { what: step.cautions.map((id) => cautionName(id, say)).join(', ') }),
    };
  });
}

/** A caution by its short name; by its id where nobody gave it one. */
export function cautionName(id: string, say: Telling['say']): string {
  const key = `change:caution.${id}`;
  const name = say(key);
  return name === key || name === `caution.${id}` ? id : name;
}

const IN_PERCENT: ReadonlySet<Aim['quantity']> = new Set(['moisturePercent', 'fatInDryMatterPercent', 'saltPercent', 'saltInMoisturePercent']); // prettier-ignore

function aimLine(aim: Aim, index: number, { make, say, write }: { readonly make: Make } & Telling): AimLine {
  const stepName = make.steps.find(({ id }) => id === aim.moment)?.name;
  const written = (value: number): string => {
    if (aim.quantity === 'pH') return write.pH(value).text;
    if (IN_PERCENT.has(aim.quantity)) return write.percent(value, aim.high < 10 ? 1 : 0).text;
    return say('makes:page.perLitre', { mass: write.grams(1000 * value).text });
  };
  const sample = aim.quantity === 'pH' ? say(`makes:samples.${aim.sample}`) : '';
  return {
    id: `${aim.quantity}-${aim.moment}-${index}`,
    what: say(`makes:quantities.${aim.quantity}`, { sample }) + (stepName === undefined ? '' : `, ${say('makes:page.after', { step: stepName })}`), // prettier-ignore
    aim: written(aim.aim),
    span: say('makes:page.span', { low: written(aim.low), high: written(aim.high) }),
    source: sourceWords(make, aim.source),
  };
}
