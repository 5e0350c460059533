import { isWithin, placesAt, type Scarce } from './profile.ts';
import type { Row } from './milp.ts';
import { RESOURCES, type Resource } from './rules.ts';

/** A job at one of the minutes where it could stand. */
export interface Candidate {
  readonly job: number;
  readonly zeroMin: number;
  readonly mode: number;
  /** Settled already: where such jobs take more than there is, no more than they do is taken. */
  readonly isFixed: boolean;
  readonly uses: readonly { readonly resource: Resource; readonly fromMin: number; readonly toMin: number }[];
}

/** Each job stands at exactly one of its candidates. */
export function onceEach(candidates: readonly Candidate[]): Row[] {
  const byJob = new Map<number, number[]>();
  for (const [column, { job }] of candidates.entries()) byJob.set(job, [...(byJob.get(job) ?? []), column]);
  return [...byJob.values()].map((columns) => ({ terms: columns.map((column) => [column, 1] as const), least: 1, most: 1 })); // prettier-ignore
}

/**
 * At no minute is more taken than there is: a row for each minute in which something begins, without those that say no more
 * than their neighbour.
 */
export function withinKit(candidates: readonly Candidate[], scarce: Scarce): Row[] {
  const rows = RESOURCES.flatMap((resource) => (scarce.places[resource] === undefined ? [] : rowsOf(candidates, scarce, resource))); // prettier-ignore
  if (scarce.more === undefined) return rows;
  // What does not fall within the hours of those who come for a while is done by those who stay.
  const staying = candidates.map((one) => ({ ...one, uses: one.uses.filter(({ resource, fromMin, toMin }) => resource === 'hands' && !isWithin(scarce.more, one.zeroMin + fromMin, one.zeroMin + toMin)) })); // prettier-ignore
  return scarce.places.hands === undefined ? rows : [...rows, ...rowsOf(staying, { ...scarce, more: undefined }, 'hands')]; // prettier-ignore
}

interface Stretch {
  readonly column: number;
  readonly fromMin: number;
  readonly toMin: number;
}

function rowsOf(candidates: readonly Candidate[], scarce: Scarce, resource: Resource): Row[] {
  const stretches = candidates.flatMap(({ zeroMin, uses }, column): Stretch[] =>
    uses
      .filter((use) => use.resource === resource)
      .map(({ fromMin, toMin }) => ({ column, fromMin: zeroMin + fromMin, toMin: zeroMin + toMin })),
  );
  const begins = [...new Set([...stretches.map(({ fromMin }) => fromMin), ...changesOf(scarce, resource)])].sort((a, b) => a - b); // prettier-ignore
  const byStart = [...stretches].sort((a, b) => a.fromMin - b.fromMin);
  const rows: Row[] = [];
  let here: Stretch[] = [];
  let next = 0;
  let last: { readonly columns: ReadonlySet<number>; readonly most: number } | null = null;
  for (const at of begins) {
    here = here.filter(({ toMin }) => toMin > at);
    for (let one = byStart[next]; one !== undefined && one.fromMin <= at; one = byStart[next]) {
      next++;
      if (one.toMin > at) here.push(one);
    }
    const columns = new Set(here.map(({ column }) => column));
    const settled = [...columns].filter((column) => candidates[column]?.isFixed === true).length;
    const most = Math.max(placesAt(scarce, resource, at), settled);
    const jobs = new Set([...columns].map((column) => candidates[column]?.job)).size;
    if (jobs <= most) continue;
    const said = last;
    if (said !== null && said.most <= most && [...columns].every((column) => said.columns.has(column))) continue;
    if (said !== null && most <= said.most && [...said.columns].every((column) => columns.has(column))) rows.pop();
    rows.push({ terms: [...columns].map((column) => [column, 1] as const), most });
    last = { columns, most };
  }
  return rows;
}

/** When there are more or fewer of something than before. */
const changesOf = ({ more }: Scarce, resource: Resource): number[] =>
  resource === 'hands' && more !== undefined ? [more.fromMin, more.toMin] : [];
