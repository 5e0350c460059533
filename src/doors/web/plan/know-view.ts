import type { Forecast } from '../../../forecast/forecast.ts';
import type { Spread } from '../../../numbers/stats.ts';
import { readyAmount } from '../../../forecast/ready-amount.ts';
import type { Written } from '../../../exchange/written.ts';
import type { Plan } from '../../../make/plan.ts';
import { readyWritten } from './amount-written.ts';
import { isKnown, nineInTen, stepFor, type Telling } from './spans.ts';

/** Things to know before the burner is lit, each one sentence with its numbers. */
export interface KnowView {
  readonly burner: readonly string[];
  /** When to look or test first and next, where a judgement ends the step. */
  readonly looks: readonly string[];
  readonly whey: string | null;
  readonly washing: string | null;
  readonly stretchWater: string | null;
  /** Why hot water wants a plan of its own: how much, how hot, how heavy. */
  readonly hotWater: { readonly water: string | null; readonly pot: string | null };
  readonly cooling: string | null;
  readonly brining: string | null;
}

/** The working facts of this pot and this milk: where to turn the burner off, how deep to draw, how heavy it is. */
export function knowView(
  input: { readonly plan: Plan; readonly forecast: Forecast; readonly zeroAt: number | null } & Telling,
): KnowView {
  const { plan, forecast, say, write } = input;
  const { needs } = forecast;
  const stepName = new Map(plan.steps.map((step) => [step.id, step.name]));
  const wash = plan.steps.find((step) => step.verb === 'wash');
  const ready = (id: string): string | null => {
    const amount = plan.amounts.find((one) => one.id === id);
    return amount === undefined ? null : readyWritten(readyAmount({ amount, forecast }), input).text;
  };
  const [washWater, stretchWater] = [ready('wash-water'), ready('stretch-water')];
  const litres = (value: number): string => write.litres(value).text;
  return {
    burner: needs.heatOffC
      .filter((off) => isKnown(off.offC))
      .map((off) =>
        say('plan:know.burner', {
          step: stepName.get(off.stepId) ?? off.stepId,
          off: write.temperature(off.offC.p50).text,
          target: write.temperature(off.targetC).text,
          minutes: write.duration(off.minutes.p50),
        }),
      ),
    looks: looksOf({ ...input, stepName }),
    whey: isKnown(needs.wheyDrawnL)
      ? isKnown(needs.wheyDrawnCm)
        ? say('plan:know.wheyDeep', {
            litres: litres(needs.wheyDrawnL.p50),
            depth: write.depth(needs.wheyDrawnCm.p50).text,
          })
        : say('plan:know.whey', { litres: litres(needs.wheyDrawnL.p50) })
      : null,
    washing:
      washWater !== null && typeof wash?.set.waterC === 'number' && typeof wash.set.stopAtC === 'number'
        ? say('plan:know.washing', { litres: washWater, water: write.degrees(wash.set.waterC).text, stop: write.degrees(wash.set.stopAtC).text }) // prettier-ignore
        : null,
    stretchWater:
      stretchWater !== null && needs.stretchWaterC !== null
        ? say('plan:know.stretchWater', {
            litres: stretchWater,
            water: write.degrees(needs.stretchWaterC).text,
            minutes: isKnown(needs.stretchWaterHeatMin) ? write.duration(needs.stretchWaterHeatMin.p75) : '',
            context: isKnown(needs.stretchWaterHeatMin) ? 'timed' : '',
          })
        : null,
    hotWater: {
      water:
        stretchWater !== null && needs.stretchWaterC !== null
          ? say('plan:hot.water', { litres: stretchWater, water: write.degrees(needs.stretchWaterC).text })
          : null,
      pot: isKnown(needs.filledPotKg) ? say('plan:hot.pot', { mass: write.kilograms(needs.filledPotKg.p95).text }) : null, // prettier-ignore
    },
    cooling:
      isKnown(needs.coolMin) && isKnown(needs.iceKg)
        ? say('plan:know.cooling', { minutes: write.duration(needs.coolMin.p50), ice: write.kilograms(needs.iceKg.p50).text }) // prettier-ignore
        : null,
    brining: isKnown(needs.brineMin) ? briningText(needs.brineMin, input) : null,
  };
}

function looksOf(
  input: {
    readonly forecast: Forecast;
    readonly zeroAt: number | null;
    readonly stepName: ReadonlyMap<string, string>;
  } & Telling,
): string[] {
  const { forecast, zeroAt, stepName, say, write } = input;
  if (zeroAt === null) return [];
  const at = (minutes: number): string => write.clock(zeroAt + minutes * 60_000);
  return forecast.steps.flatMap(({ stepId, looksMin }) => {
    const [first, next] = looksMin.filter(Number.isFinite);
    if (first === undefined) return [];
    const step = stepName.get(stepId) ?? stepId;
    return [
      next === undefined
        ? say('plan:know.look', { step, first: at(first) })
        : say('plan:know.lookAgain', { step, first: at(first), next: at(next) }),
    ];
  });
}

/** Minutes in the brine; a span of hardly a minute is not worth saying. */
function briningText(minutes: Spread, { say, write }: Telling): string {
  const about = write.duration(minutes.p50);
  if (minutes.p95 - minutes.p5 < 3) return say('plan:know.brining', { minutes: about });
  const timed = (value: number): Written => ({ number: write.duration(value), unit: '', text: write.duration(value) });
  const span = nineInTen({ spread: minutes, step: Math.max(1, stepFor(minutes.p95)), write: timed, say });
  return say('plan:know.briningSpan', { minutes: about, span });
}
