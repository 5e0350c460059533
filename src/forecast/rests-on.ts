import type { Course } from './course.ts';

/** What the bands rest on, as catalogue codes under `restsOn`: the wide ones first. */
export function restsOn(course: Course): string[] {
  const { setup } = course.plan;
  const { readings, judgements } = course.history;
  const codes: string[] = [];
  const has = (quantity: string): boolean => readings.some((reading) => reading.quantity === quantity);
  const batches = setup.culture.batchesWithLot;
  if (course.plan.make.doses.culture !== undefined)
    codes.push(batches === 0 ? 'first-time-with-packet' : batches < 8 ? 'few-batches-with-packet' : 'packet-known');
  if (setup.culture.measuredBy === 'spoon') codes.push('culture-by-spoon');
  if (
    course.plan.make.doses.rennet !== undefined &&
    setup.rennet.strengthImcuPerMl === undefined &&
    !has('flocculationMin')
  )
    codes.push('rennet-strength-unknown');
  if (has('flocculationMin')) codes.push('flocculation-seen');
  const drainedAt = course.steps.find((step) => step.verb === 'drain')?.endedMin ?? null;
  const curdRead = readings.some(
    (reading) => reading.quantity === 'pH' && drainedAt !== null && reading.elapsedMin >= drainedAt,
  );
  if (has('pH')) codes.push('pH-read');
  if (drainedAt !== null) codes.push(curdRead ? 'curd-pH-read' : 'no-curd-reading-yet');
  if (judgements.some((judged) => judged.judgement === 'stretch')) codes.push('stretch-tested');
  codes.push(has('massKg') ? 'curd-weighed' : 'moisture-not-weighed');
  return codes;
}
