import { sentenceInUnits } from '../../../make/sentence.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer, Written } from '../../../exchange/written.ts';

/** The words and figures of one reader, and the minute zero of the batch: what every view of a batch is told with. */
export interface Telling {
  readonly say: Say;
  readonly write: Writer;
  readonly zeroAt: number;
}

const MINUTE_MS = 60_000;
const NARROW = '\u202F';

export const instantOf = (input: { readonly zeroAt: number; readonly elapsedMin: number }): number =>
  input.zeroAt + input.elapsedMin * MINUTE_MS;

/** Clock time of a minute of the batch. */
export function clockOf(telling: Telling, elapsedMin: number): string {
  return telling.write.clock(instantOf({ zeroAt: telling.zeroAt, elapsedMin }));
}

/** A length of time as the vat's key number: minutes, below two of them with seconds, from two hours on in hours. */
export function minutesWritten(minutes: number): Written {
  const whole = Math.max(0, Math.round(minutes));
  if (minutes < 2) {
    const seconds = Math.max(0, Math.round(minutes * 60));
    return pair(`${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`, 'min');
  }
  return whole < 120
    ? pair(String(whole), 'min')
    : pair(`${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`, 'h');
}

export const pair = (number: string, unit: string): Written => ({
  number,
  unit,
  text: unit === '' ? number : `${number}${NARROW}${unit}`,
});

/** "9 times in 10 between 11:05 and 11:40", or only the clock time where the span is under two minutes. */
export function expectText(
  telling: Telling,
  end: { readonly p5: number; readonly p50: number; readonly p95: number },
): string {
  const { say } = telling;
  const from = clockOf(telling, end.p5);
  if (!Number.isFinite(end.p50)) {
    return Number.isFinite(end.p5) ? say('vat:expect.notBefore', { from }) : say('vat:expect.never');
  }
  const at = clockOf(telling, end.p50);
  if (!Number.isFinite(end.p95)) return say('vat:expect.open', { at, from });
  if (end.p95 - end.p5 < 2) return say('vat:expect.at', { at });
  return say('vat:expect.span', { at, from, to: clockOf(telling, end.p95) });
}

/** A list in words: "sieve, bucket and cloth"; the joining word comes from the catalogue. */
export function listText(items: readonly string[], joinedBy: string): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} ${joinedBy} ${items.at(-1) ?? ''}`;
}

/** A make's sentences stay the same for hours, and are said at every new forecast; beyond so many they are of another make. */
const MOST_SAID = 1000;
const saidIn = new Map<Writer['units'], Map<string, string>>();

/** Text from a make as this reader sees it: in their units, and unbroken. */
export function asSaid(text: string, { write }: Pick<Telling, 'write'>): string {
  const { units } = write;
  const known = saidIn.get(units) ?? new Map<string, string>();
  if (known.size >= MOST_SAID) known.clear();
  const said = known.get(text) ?? unbroken(sentenceInUnits({ text, units }));
  saidIn.set(units, known.set(text, said));
  return said;
}

/** Text from a make with its numbers held to their units, so that no line ends between them. */
export const unbroken = (text: string): string =>
  text.replaceAll(/(\d) (°C|°F|min|kg|g|L|mL|cm|mm|%)(?![a-zA-Z])/g, '$1\u00A0$2');
