import type { TimelineStep } from './timeline-layout.ts';

const MINUTE_MS = 60_000;

/** A part of a step that wants hands, or only waits; milliseconds UTC. */
export interface Stretch {
  readonly kind: 'hands' | 'waiting';
  readonly fromAt: number;
  readonly toAt: number;
}

/** Stretches of one step in order: attention at the start (and during), waiting, attention at the end. Empty ones are left out. */
export function stretchesOf(step: Pick<TimelineStep, 'startAt' | 'endAt' | 'handsMin'>): Stretch[] {
  const lengthMin = Math.max(0, (step.endAt - step.startAt) / MINUTE_MS);
  const frontMin = Math.min(lengthMin, step.handsMin.start + step.handsMin.during);
  const backMin = Math.min(lengthMin - frontMin, step.handsMin.end);
  const frontEndAt = step.startAt + frontMin * MINUTE_MS;
  const backStartAt = step.endAt - backMin * MINUTE_MS;
  const stretches: readonly Stretch[] = [
    { kind: 'hands', fromAt: step.startAt, toAt: frontEndAt },
    { kind: 'waiting', fromAt: frontEndAt, toAt: backStartAt },
    { kind: 'hands', fromAt: backStartAt, toAt: step.endAt },
  ];
  return stretches.filter((stretch) => stretch.toAt > stretch.fromAt);
}
