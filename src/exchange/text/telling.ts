import type { Forecast } from '../../forecast/forecast.ts';
import type { Plan } from '../../make/plan.ts';
import type { Spread } from '../../numbers/stats.ts';
import type { Schedule } from '../schedule.ts';
import type { Say } from '../words.ts';
import type { Writer } from '../written.ts';
import type { BothUnits } from './both-units.ts';

/** A plan worked out, and how it is told: everything a section of the sheet needs. */
export interface Sheet {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly schedule: Schedule;
  /** Milliseconds UTC. */
  readonly now: number;
  /** How many minutes later the curd is ready when the culture is 30 % short; null where a packet's share is not weighed. */
  readonly spoonDelayMin: number | null;
  readonly say: Say;
  readonly both: BothUnits;
  readonly write: Writer;
  /** Wall clock of the maker's place: "14:05". */
  readonly clock: (atMs: number) => string;
  /** "Monday 2 March". */
  readonly day: (atMs: number) => string;
  /** How an assumption is answered at this door: `--packet-for`. */
  readonly wayToAnswer: (field: string) => string;
  /** Characters to a line. */
  readonly width: number;
}

const MINUTE_MS = 60_000;

export const isKnown = (spread: Spread | null | undefined): spread is Spread =>
  spread !== null && spread !== undefined && [spread.p5, spread.p50, spread.p95].every(Number.isFinite);

/** The instant of an elapsed minute. */
export const instant = (sheet: Pick<Sheet, 'schedule'>, elapsedMin: number): number =>
  sheet.schedule.zeroAt + elapsedMin * MINUTE_MS;

/** The clock at an elapsed minute, to the minute; "?" where it is never reached, "+1" behind it on the next day. */
export function clockAt(sheet: Pick<Sheet, 'schedule' | 'clock' | 'day'>, elapsedMin: number): string {
  if (!Number.isFinite(elapsedMin)) return '?';
  const at = instant(sheet, elapsedMin);
  const isSameDay = sheet.day(at) === sheet.day(sheet.schedule.zeroAt);
  return isSameDay ? sheet.clock(at) : `${sheet.clock(at)}${elapsedMin > 0 ? '+1' : '-1'}`;
}

const BAND_MIN = 5;

/** "14:05-14:40": nine times in ten, both ends rounded outward to five minutes. */
export function clockBand(sheet: Pick<Sheet, 'schedule' | 'clock' | 'day'>, spread: Spread): string {
  const low = Math.floor(spread.p5 / BAND_MIN) * BAND_MIN;
  const high = Math.ceil(spread.p95 / BAND_MIN) * BAND_MIN;
  return low === high ? clockAt(sheet, low) : `${clockAt(sheet, low)}-${clockAt(sheet, high)}`;
}

/** "40 min", "1 h 40 min". */
export function hoursText(minutes: number): string {
  const whole = Math.round(minutes);
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  return hours === 0 ? `${rest} min` : rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}
