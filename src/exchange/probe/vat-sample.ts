import { z } from 'zod';
import type { Sample } from '../../make/step.ts';
import type { BatchRecord } from '../../record/batch-record.ts';

const stepsSchema = z.object({ steps: z.array(z.object({ id: z.string(), verb: z.string() })) });

/**
 * What a probe that hangs in the vat measures at a moment: the milk until it is cut, the whey around the curd until it
 * is drained, then the curd.
 * @param input.at milliseconds UTC
 */
export function vatSampleAt(input: {
  readonly record: Pick<BatchRecord, 'make' | 'steps'>;
  readonly at: number;
}): Sample {
  const { record, at } = input;
  const make = stepsSchema.safeParse(record.make);
  const verbs = new Map((make.success ? make.data.steps : []).map(({ id, verb }) => [id, verb]));
  const hasBegun = (verb: string): boolean =>
    record.steps.some(({ stepId, startedAt, endedAt }) => verbs.get(stepId) === verb && (startedAt ?? endedAt ?? Infinity) <= at); // prettier-ignore
  if (hasBegun('drain')) return 'curd';
  return hasBegun('cut') ? 'whey' : 'milk';
}
