/** The fold of one place where cheese lies, and of the days when nobody is there. */
import type { Event } from './event.ts';
import type { KeepingBody } from './keeping-events.ts';
import { keptLog, type Kept } from './kept-log.ts';

export interface PlaceRecord {
  readonly placeId: string;
  /** Null until somebody named it. */
  readonly told: Kept<'placeTold'> | null;
  readonly checks: readonly Kept<'placeChecked'>[];
  /** As last read or told; null where nobody did. */
  readonly temperatureC: number | null;
  readonly humidityPercent: number | null;
  readonly box: NonNullable<KeepingBody<'placeTold'>['box']> | null;
  /** As last seen. */
  readonly droplets: KeepingBody<'placeChecked'>['droplets'] | null;
  readonly isClosed: boolean;
}

/**
 * What is known of one place, from its events in any order.
 * @throws EventConflictError when one id stands for two different events
 */
export function foldPlace(events: readonly Event[]): PlaceRecord {
  const { streamId, told } = keptLog(events);
  const named = told('placeTold');
  const checks = told('placeChecked');
  const both = [...named, ...checks].sort((a, b) => a.at - b.at);
  return {
    placeId: streamId,
    told: named.at(-1) ?? null,
    checks,
    temperatureC: both.filter(({ temperatureC }) => temperatureC !== undefined).at(-1)?.temperatureC ?? null,
    humidityPercent:
      both.filter(({ humidityPercent }) => humidityPercent !== undefined).at(-1)?.humidityPercent ?? null,
    box: both.filter(({ box }) => box !== undefined).at(-1)?.box ?? null,
    droplets: checks.filter(({ droplets }) => droplets !== undefined).at(-1)?.droplets ?? null,
    isClosed: told('placeClosed').length > 0,
  };
}

/** The days away that stand in a stream of days, first and last included, as `2026-12-24`. */
export function daysAway(events: readonly Event[]): readonly (Kept<'awayPlanned'> & { readonly streamId: string })[] {
  if (!events.some(({ kind }) => kind === 'awayPlanned')) return [];
  const { streamId, told } = keptLog(events);
  return told('awayPlanned').map((away) => ({ ...away, streamId }));
}
