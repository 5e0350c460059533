import type { PotSeen } from './pot-seen.ts';
import type { Pot } from './use-pots.ts';

/** A pot as the pure views take it. */
export const seenOf = ({ potId, batch, forecast, planned, failed, heardAt }: Pot): PotSeen => ({ potId, record: batch.record, plan: batch.plan, forecast, planned, failed, heardAt }); // prettier-ignore
