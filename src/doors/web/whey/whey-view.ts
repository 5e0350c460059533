/** The whey of a make in words: each that comes off, how sour, by when it must be used, and for what. */
import { wheyLeft, type WheyOption, type WheyPortion } from '../../../forecast/whey-left.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';

export interface WheyView {
  readonly stepId: string;
  /** Which whey, how much, how sour. */
  readonly title: string;
  /** When it comes, or came. */
  readonly when: string;
  readonly fitting: readonly WheyLine[];
  /** What it is no longer good for, and why. */
  readonly others: readonly WheyLine[];
  /** Litres and the moment it is off (milliseconds UTC), for planning a second make from it; null where none fits. */
  readonly second: { readonly litres: number; readonly at: number } | null;
}

export interface WheyLine {
  readonly id: WheyOption['use'];
  readonly text: string;
  readonly source: string;
}

const MINUTE_MS = 60_000;
/** A reading so long before the whey came off still speaks of it. Our own choice. */
const READ_WITHIN_MS = 45 * MINUTE_MS;

/** Every whey of a plan, or of a batch as far as it is recorded. */
export function wheyViews(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly zeroAt: number;
  readonly record?: BatchRecord;
  readonly now?: number;
  readonly say: Say;
  readonly write: Writer;
}): WheyView[] {
  const { plan, forecast, record, now, zeroAt } = input;
  const offAt = new Map(record?.steps.flatMap(({ stepId, endedAt }) => (endedAt === null ? [] : [[stepId, endedAt] as const]))); // prettier-ignore
  const minutesSince = new Map([...offAt].map(([id, at]) => [id, ((now ?? at) - at) / MINUTE_MS]));
  const portions = wheyLeft({ plan, forecast, minutesSince, readPH: readings(record, offAt) });
  return portions.map((portion) => viewOf(portion, offAt.get(portion.stepId) ?? zeroAt + portion.offMin * MINUTE_MS, offAt.has(portion.stepId), input)); // prettier-ignore
}

/** The last pH that was read in the whey shortly before it came off, by the step that let it off. */
function readings(record: BatchRecord | undefined, offAt: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  const read = record?.readings.filter(({ quantity, sample }) => quantity === 'pH' && sample === 'whey') ?? [];
  return new Map(
    [...offAt].flatMap(([stepId, at]) => {
      const last = read.filter((one) => one.at <= at && at - one.at <= READ_WITHIN_MS).at(-1);
      return last === undefined ? [] : [[stepId, last.value] as const];
    }),
  );
}

function viewOf(
  portion: WheyPortion,
  at: number,
  isOff: boolean,
  input: { readonly say: Say; readonly write: Writer },
): WheyView {
  const { say, write } = input;
  const { litres, pH, taste, isWashed, stepName } = portion;
  const line = (option: WheyOption): WheyLine => ({ id: option.use, text: option.fits ? fitText(option, at, input) : stopText(option, say), source: option.source }); // prettier-ignore
  const makesMore = portion.options.some(({ use, fits }) => fits && (use === 'whey-curd' || use === 'brown-cheese'));
  return {
    stepId: portion.stepId,
    title: [
      say(isWashed ? 'whey:titleWashed' : 'whey:title', { step: stepName, amount: litres === null ? say('whey:some') : write.litres(litres.p50).text }), // prettier-ignore
      pH === null ? say('whey:taste.unknown') : say(`whey:taste.${taste}`, { pH: write.number(pH.p50, 1), low: write.number(pH.p5, 1), high: write.number(pH.p95, 1) }), // prettier-ignore
    ].join(' '),
    when: say(isOff ? 'whey:offSince' : 'whey:offAbout', { at: write.clock(at) }),
    fitting: portion.options.filter(({ fits }) => fits).map(line),
    others: portion.options.filter(({ fits }) => !fits).map(line),
    second: makesMore && litres !== null ? { litres: Math.round(10 * litres.p50) / 10, at } : null,
  };
}

function fitText(
  option: WheyOption,
  at: number,
  { say, write }: { readonly say: Say; readonly write: Writer },
): string {
  const { use, withinMin, givesKg, doubts } = option;
  const by = withinMin === null ? '' : withinMin < 1440 ? say('whey:by', { at: write.clock(at + withinMin * MINUTE_MS) }) : say('whey:byDay', { count: Math.round(withinMin / 1440) }); // prettier-ignore
  const gives = givesKg === undefined ? '' : say('whey:gives', { low: write.kilograms(givesKg.low).text, high: write.kilograms(givesKg.high).text }); // prettier-ignore
  return [say(`whey:use.${use}`), by, gives, ...doubts.map((doubt) => say(`whey:doubt.${doubt}`))]
    .filter((part) => part !== '')
    .join(' ');
}

const stopText = ({ use, doubts }: WheyOption, say: Say): string =>
  say('whey:not', { use: say(`whey:name.${use}`), why: doubts.map((doubt) => say(`whey:doubt.${doubt}`)).join(' ') });
