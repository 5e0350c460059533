import { isRecord } from '../make/problems.ts';

/** JSON has no infinity and no NaN: what is never reached is null. */
export function withNulls(value: unknown): unknown {
  if (typeof value === 'number') return Number.isFinite(value) ? value : null;
  if (Array.isArray(value)) return value.map(withNulls);
  if (!isRecord(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inside]) => [key, withNulls(inside)]));
}
