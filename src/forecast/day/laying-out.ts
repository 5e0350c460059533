import type { DayInput, PlacedPot, PlacedPreparation } from './day.ts';
import { openPreparations, preparingOf } from './preparing.ts';
import { GRID_MIN, LAY_OUT_MIN } from './rules.ts';
import type { PotJobs } from './jobs.ts';
import type { Want } from './units.ts';

/** Preparations that want hands only, or the evening before: put where hands are free, once the pots stand. */

export interface LaidOut {
  readonly preparations: readonly PlacedPreparation[];
  readonly wants: readonly Want[];
  /** What cannot be ready in time any more. */
  readonly late: readonly {
    readonly potId: string;
    readonly stepId: string;
    readonly preparationId: string;
    readonly isNight: boolean;
  }[];
}

const FURTHEST_MIN = 24 * 60; // nothing is laid out longer before; what wants a night is for the evening

/**
 * Puts everything that has only to be laid out, measured or cleaned at the latest time that leaves it its lead and finds
 * hands free; what one step wants is one piece of work.
 * @param input.busy  what hands do already
 */
export function layOut(input: {
  readonly day: DayInput;
  readonly pots: readonly PotJobs[];
  readonly placed: readonly PlacedPot[];
  readonly busy: readonly Want[];
}): LaidOut {
  const { day, pots, placed } = input;
  const nowMin = day.hours.nowMin ?? Number.NEGATIVE_INFINITY;
  const preparations: PlacedPreparation[] = [];
  const late: LaidOut['late'][number][] = [];
  const wants: Want[] = [];
  for (const group of groupsOf(pots, placed)) {
    const { potId, stepId, ids, byMin, isEvening } = group;
    if (isEvening) {
      for (const { id, leadMin } of ids) {
        const startMin = byMin - leadMin;
        const isNight = startMin < nowMin && byMin - nowMin < Math.min(leadMin, NIGHT_MIN);
        if (isNight) late.push({ potId, stepId, preparationId: id, isNight });
        preparations.push({ potId, stepId, preparationId: id, startMin, endMin: startMin, by: 'evening' });
      }
      continue;
    }
    const longest = Math.max(...ids.map(({ leadMin }) => leadMin));
    const latest = Math.floor((byMin - Math.max(longest, LAY_OUT_MIN)) / GRID_MIN) * GRID_MIN;
    const busy = [...input.busy, ...wants].filter(({ resource }) => resource === 'hands');
    let startMin = latest;
    while (startMin > latest - FURTHEST_MIN && !isFree(busy, startMin, day)) startMin -= GRID_MIN;
    if (startMin < nowMin) {
      startMin = Math.ceil(nowMin / GRID_MIN) * GRID_MIN;
      while (!isFree(busy, startMin, day)) startMin += GRID_MIN;
      for (const { id } of ids) late.push({ potId, stepId, preparationId: id, isNight: false });
    }
    const endMin = startMin + LAY_OUT_MIN;
    for (const { id } of ids) preparations.push({ potId, stepId, preparationId: id, startMin, endMin, by: 'hands' });
    const [first] = ids;
    if (first !== undefined) wants.push({ resource: 'hands', fromMin: startMin, toMin: endMin, potId, stepId, preparationId: first.id }); // prettier-ignore
  }
  return { preparations, wants, late };
}

const NIGHT_MIN = 600; // a night freezes ice and chills brine, whatever longer time the make asks for: own choice, as on one make's clock

interface Group {
  readonly potId: string;
  readonly stepId: string;
  readonly ids: readonly { readonly id: string; readonly leadMin: number }[];
  /** When the step may come early and want it. */
  readonly byMin: number;
  readonly isEvening: boolean;
}

/** What is wanted first comes first. */
function groupsOf(pots: readonly PotJobs[], placed: readonly PlacedPot[]): Group[] {
  return pots
    .flatMap(({ pot, times }) => {
      const stands = placed.find(({ potId }) => potId === pot.id);
      const groups = new Map<string, { group: Group; ids: { id: string; leadMin: number }[] }>();
      for (const { step, preparation } of openPreparations(pot)) {
        const kind = preparingOf(preparation);
        const at = times[step];
        const on = stands?.steps[step];
        if (kind === 'heating' || at === undefined || on === undefined) continue;
        const byMin = on.startMin - (at.start.p50 - at.start.soon);
        const key = `${at.stepId} ${kind}`;
        const known = groups.get(key) ?? { group: { potId: pot.id, stepId: at.stepId, ids: [], byMin, isEvening: kind === 'evening' }, ids: [] }; // prettier-ignore
        known.ids.push({ id: preparation.id, leadMin: preparation.leadMinutes.value });
        groups.set(key, known);
      }
      return [...groups.values()].map(({ group, ids }): Group => ({ ...group, ids }));
    })
    .sort((a, b) => a.byMin - b.byMin);
}

/** A free pair of hands for the whole of it. */
function isFree(busy: readonly Want[], startMin: number, { kit }: DayInput): boolean {
  const endMin = startMin + LAY_OUT_MIN;
  const during = busy.filter(({ fromMin, toMin }) => fromMin < endMin && toMin > startMin);
  const isMore = kit.more !== undefined && startMin >= kit.more.fromMin && endMin <= kit.more.toMin;
  const there = kit.hands + (isMore ? (kit.more?.hands ?? 0) : 0);
  // As many as are busy at any of its moments: counted at each beginning among them.
  const moments = [startMin, ...during.map(({ fromMin }) => fromMin).filter((at) => at > startMin)];
  return moments.every((at) => during.filter(({ fromMin, toMin }) => fromMin <= at && toMin > at).length < there);
}
