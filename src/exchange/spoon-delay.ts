import { simulate } from '../forecast/simulate.ts';
import type { Plan } from '../make/plan.ts';

const SPOON_SHORT = 0.7; // a spoon of powder is about 30 % off: common practice (no source)
const MEMBERS = 200;

/**
 * How much later the curd is ready when the culture is 30 % short, from two runs of the same members.
 * @returns minutes, median against median; null where the culture is not measured from a packet, or no run gets there
 */
export function spoonDelayMin(input: { readonly plan: Plan; readonly seed: number }): number | null {
  const { plan, seed } = input;
  const { culture } = plan.setup;
  if (culture.bulkPercent !== undefined) return null;
  const short: Plan = {
    ...plan,
    setup: { ...plan.setup, culture: { ...culture, packetFraction: culture.packetFraction * SPOON_SHORT } },
  };
  const readyMin = (each: Plan): number =>
    simulate({ plan: each, members: MEMBERS, seed }).outcome.cultureToReadyMin.p50;
  const delay = readyMin(short) - readyMin(plan);
  return Number.isFinite(delay) ? delay : null;
}
