/**
 * What to doubt in a make before anybody makes it: ends that its acid does not reach, times that its forecast contradicts,
 * aims that it misses, cautions that its steps call for and do not carry.
 */
import type { Forecast } from '../forecast/forecast.ts';
import type { Make } from '../make/make.ts';
import type { Plan, PlannedStep } from '../make/plan.ts';
import type { Step } from '../make/step.ts';

export type MakeCheck =
  /** A step waits for a pH that no culture and no acid before it can bring. */
  | { readonly code: 'no-acid'; readonly field: string; readonly step: string; readonly at: number }
  /** The forecast seldom comes down so far in that step. */
  | { readonly code: 'pH-not-reached'; readonly field: string; readonly step: string; readonly at: number; readonly p5: number; readonly p95: number }
  /** The time beside a judgement or a pH is not what the forecast expects. */
  | { readonly code: 'time-contradicted'; readonly field: string; readonly step: string; readonly minutes: number; readonly likelyMin: number; readonly p5: number; readonly p95: number }
  | { readonly code: 'never-ends'; readonly field: string; readonly step: string }
  /** Fewer than a quarter of such makes land in an aim. */
  | { readonly code: 'aim-missed'; readonly field: string; readonly quantity: string; readonly low: number; readonly high: number; readonly p5: number; readonly p95: number; readonly in20: number }
  | { readonly code: 'caution-missing'; readonly field: string; readonly step: string; readonly caution: string }
  | { readonly code: 'raw-unsaid'; readonly field: string }; // prettier-ignore

const MILK_PH = 6.7; // fresh milk; common practice (no source)
const FALL_WITHOUT_ACID = 0.15; // our own choice: what warm milk does by itself in a day's work is less
const FEW = 0.25; // our own choice
const MISSED_BY_PH = 0.05; // the reading of a good meter
const TIMES_OFF = 1.6; // our own choice: a time so much longer or shorter than the likeliest misleads
const LEAST_OFF_MIN = 15; // our own choice

/** What only reading the make tells, without a forecast. */
export function readingChecks(make: Make): MakeCheck[] {
  return [...unsoured(make), ...uncautioned(make)];
}

/**
 * What the forecast of a typical plan tells against the make.
 * @param input.plan of this make, with typical milk
 */
export function forecastChecks(input: { readonly plan: Plan; readonly forecast: Forecast }): MakeCheck[] {
  const { plan, forecast } = input;
  const placeOf = new Map(plan.make.steps.map(({ id }, index) => [id, index]));
  const checks: MakeCheck[] = [];
  for (const step of plan.steps) {
    const foreseen = forecast.steps.find(({ stepId }) => stepId === step.id);
    const place = placeOf.get(step.id);
    if (foreseen === undefined || place === undefined) continue;
    checks.push(...stepChecks(step, foreseen, `steps[${place}]`));
  }
  for (const { aim, spread, probability } of forecast.aims) {
    const meant = plan.make.aims[aim];
    if (meant === undefined || !(probability < FEW)) continue;
    const { low, high, quantity } = meant;
    checks.push({ code: 'aim-missed', field: `aims[${aim}]`, quantity, low, high, p5: spread.p5, p95: spread.p95, in20: Math.round(20 * probability) }); // prettier-ignore
  }
  return checks;
}

function* stepChecks(step: PlannedStep, foreseen: Forecast['steps'][number], at: string): Generator<MakeCheck> {
  const { startMin, endMin, endPH } = foreseen;
  if (Number.isFinite(startMin.p50) && !Number.isFinite(endMin.p50)) {
    yield { code: 'never-ends', field: `${at}.until`, step: step.name };
    return;
  }
  for (const [index, end] of step.until.of.entries()) {
    const field = `${at}.until.of[${index}]`;
    if (end.kind === 'pH' && endPH !== null && endPH.p25 > end.at.value + MISSED_BY_PH) {
      yield {
        code: 'pH-not-reached',
        field: `${field}.at`,
        step: step.name,
        at: end.at.value,
        p5: endPH.p5,
        p95: endPH.p95,
      };
    }
    if (end.kind !== 'time' || !isExpectation(step)) continue;
    const minutes = end.minutes.value;
    const likelyMin = endMin.p50 - startMin.p50;
    const off = Math.max(minutes, likelyMin) / Math.max(1, Math.min(minutes, likelyMin));
    if (off > TIMES_OFF && Math.abs(minutes - likelyMin) >= LEAST_OFF_MIN) {
      yield { code: 'time-contradicted', field: `${field}.minutes`, step: step.name, minutes, likelyMin, p5: Math.min(likelyMin, endMin.p5 - startMin.p5), p95: Math.max(likelyMin, endMin.p95 - startMin.p95) }; // prettier-ignore
    }
  }
}

/** A time beside another end is only the expectation; alone it is the step's own length, and nothing contradicts it. */
const isExpectation = ({ until }: PlannedStep): boolean => until.of.some(({ kind }) => kind !== 'time');

/** A pH that is waited for with nothing before it that makes acid. */
function* unsoured(make: Make): Generator<MakeCheck> {
  let isSoured = false;
  for (const [place, step] of make.steps.entries()) {
    if (step.set.ingredient === 'culture' || step.set.ingredient === 'acid') isSoured = true;
    if (step.verb === 'heatWithAcid' && make.doses.acid !== undefined) isSoured = true;
    if (isSoured || make.milk.fill === 'whey') continue;
    for (const [index, end] of step.until.of.entries()) {
      if (end.kind === 'pH' && end.at.value < MILK_PH - FALL_WITHOUT_ACID) {
        yield { code: 'no-acid', field: `steps[${place}].until.of[${index}].at`, step: step.name, at: end.at.value };
      }
    }
  }
}

interface CautionRule {
  readonly caution: string;
  /** True for a step that calls for it. */
  readonly calls: (step: Step, make: Make) => boolean;
  /** Once in the make is enough; otherwise each such step must carry it. */
  readonly once: boolean;
}

const HOT_C = 50; // common practice (no source): water that scalds a child's hand in minutes
const CURDLING_C = 80; // hot milk or whey, steam
const STRONG_PERCENT = 20; // common practice (no source): from here on a brine keeps itself
const NIGHT_MIN = 480; // our own choice
const hotWater = ({ set }: Step): boolean => (set.waterC?.value ?? 0) >= HOT_C;
const stands = ({ until }: Step, minutes: number): boolean => until.of.some((end) => end.kind === 'time' && end.minutes.value >= minutes); // prettier-ignore

/** Which caution which work calls for; the words of each and when they are shown stand with the science (`science/cautions.ts`). */
const RULES: readonly CautionRule[] = [
  { caution: 'stretch-hands', once: true, calls: ({ verb }) => verb === 'stretch' },
  { caution: 'hot-water-people', once: true, calls: (step) => hotWater(step) && (step.verb === 'stretch' || step.verb === 'wash') }, // prettier-ignore
  { caution: 'hot-curdling', once: false, calls: ({ verb, set }) => verb === 'heatWithAcid' || (verb === 'warm' && (set.toC?.value ?? 0) >= CURDLING_C) }, // prettier-ignore
  { caution: 'heat-acid-fresh', once: true, calls: ({ verb }, make) => verb === 'heatWithAcid' && make.doses.culture === undefined }, // prettier-ignore
  { caution: 'boil-over', once: false, calls: ({ verb }) => verb === 'boilDown' },
  { caution: 'room-acid', once: true, calls: (step) => (step.verb === 'ripen' || step.verb === 'hold' || step.verb === 'set') && stands(step, NIGHT_MIN) }, // prettier-ignore
  { caution: 'acid-slow', once: true, calls: ({ verb }, make) => verb === 'restToAcid' && make.doses.culture !== undefined }, // prettier-ignore
  {
    caution: 'brine-warm-weak',
    once: true,
    calls: ({ verb, set }) => verb === 'brine' && (set.brinePercent?.value ?? 0) < STRONG_PERCENT,
  },
  { caution: 'soft-ripened', once: true, calls: ({ verb }, make) => verb === 'age' && make.properties.surfaceRipened },
  { caution: 'acid-handling', once: true, calls: ({ set, verb }, make) => make.doses.acid?.kind === 'lactic' && (set.ingredient === 'acid' || verb === 'heatWithAcid') }, // prettier-ignore
];

function* uncautioned(make: Make): Generator<MakeCheck> {
  const all = new Set(make.steps.flatMap(({ cautions }) => cautions));
  for (const { caution, calls, once } of RULES) {
    const calling = make.steps.flatMap((step, place) => (calls(step, make) ? [{ step, place }] : []));
    if (once && all.has(caution)) continue;
    const lacking = calling.filter(({ step }) => !step.cautions.includes(caution));
    for (const { step, place } of once ? lacking.slice(0, 1) : lacking) {
      yield { code: 'caution-missing', field: `steps[${place}].cautions`, step: step.name, caution };
    }
  }
  const saysRaw = make.milk.deviations.some(({ when }) => when === 'raw');
  if (make.milk.treatments.includes('raw') && !saysRaw) yield { code: 'raw-unsaid', field: 'milk.treatments' };
}

/** Every caution that a step may carry by the rules above, for a form to choose from. */
export const CALLED_CAUTIONS: readonly string[] = [...new Set(RULES.map(({ caution }) => caution))];
