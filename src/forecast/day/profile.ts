import type { DayKit } from './day.ts';
import type { Mode, Use } from './jobs.ts';
import { RESOURCES, type Resource } from './rules.ts';

/** What of the kit is free, minute by minute; pots are put on it and taken off again. */
export class Profile {
  readonly #fromMin: number;
  /** Free places of what is scarce; nothing for what is not. */
  readonly #free: Readonly<Partial<Record<Resource, Int16Array>>>;
  /** Hands that stay all day, free for what does not fall within the hours of the others. */
  readonly #staying: Int16Array | null;
  readonly #more: Scarce['more'];

  constructor(input: { readonly kit: Scarce; readonly fromMin: number; readonly toMin: number }) {
    const { kit } = input;
    this.#fromMin = Math.floor(input.fromMin);
    const length = Math.ceil(input.toMin) - this.#fromMin + 1;
    const free: Partial<Record<Resource, Int16Array>> = {};
    for (const resource of RESOURCES) {
      if (kit.places[resource] === undefined) continue;
      free[resource] = Int16Array.from({ length }, (_, at) => placesAt(kit, resource, at + this.#fromMin));
    }
    this.#free = free;
    this.#more = kit.more;
    this.#staying =
      kit.places.hands === undefined || kit.more === undefined ? null : new Int16Array(length).fill(kit.places.hands);
  }

  /** The line of the staying hands, for a use that others cannot do from start to end. */
  #stayingFor(use: Use, zeroMin: number): Int16Array | undefined {
    const isTheirs = use.resource === 'hands' && this.#staying !== null && !isWithin(this.#more, zeroMin + use.fromMin, zeroMin + use.toMin); // prettier-ignore
    return isTheirs ? (this.#staying ?? undefined) : undefined;
  }

  /**
   * Null where a job placed there finds enough free; else the next zero at which it might, as far as that clash can tell.
   */
  clash(mode: Mode, zeroMin: number): number | null {
    const base = zeroMin - this.#fromMin;
    for (const use of mode.uses) {
      const { resource, fromMin, toMin } = use;
      const free = this.#free[resource];
      if (free === undefined) continue;
      const staying = this.#stayingFor(use, zeroMin);
      // From the end: the last minute that is taken throws the job furthest.
      for (let at = base + toMin - 1; at >= base + fromMin; at--) {
        if ((free[at] ?? 0) <= 0 || (staying !== undefined && (staying[at] ?? 0) <= 0))
          return at + this.#fromMin - fromMin + 1;
      }
    }
    return null;
  }

  put(mode: Mode, zeroMin: number): void {
    this.#add(mode, zeroMin, -1);
  }

  take(mode: Mode, zeroMin: number): void {
    this.#add(mode, zeroMin, 1);
  }

  #add(mode: Mode, zeroMin: number, by: 1 | -1): void {
    const base = zeroMin - this.#fromMin;
    for (const use of mode.uses) {
      for (const line of [this.#free[use.resource], this.#stayingFor(use, zeroMin)]) {
        if (line === undefined) continue;
        for (let at = base + use.fromMin; at < base + use.toMin; at++) line[at] = (line[at] ?? 0) + by;
      }
    }
  }
}

/** What there could be too little of. */
export interface Scarce {
  readonly places: Readonly<Partial<Record<Resource, number>>>;
  readonly more: DayKit['more'];
}

/** How many of something there are at a minute; pupils bring hands while they are there. */
export function placesAt({ places, more }: Scarce, resource: Resource, atMin: number): number {
  const there = places[resource] ?? Number.POSITIVE_INFINITY;
  if (resource !== 'hands' || more === undefined) return there;
  return atMin >= more.fromMin && atMin < more.toMin ? there + more.hands : there;
}

/** True where hands that come for a while are there from the start to the end of something. */
export const isWithin = (more: DayKit['more'], fromMin: number, toMin: number): boolean =>
  more !== undefined && fromMin >= more.fromMin && toMin <= more.toMin;

/** The kit without what nobody could ever run short of: as many of it as there are jobs that take any. */
export function scarceOf(input: {
  readonly kit: DayKit;
  readonly jobs: readonly { readonly modes: readonly Mode[] }[];
}): Scarce {
  const { kit, jobs } = input;
  const takes = (resource: Resource): number =>
    jobs.filter(({ modes }) => modes.some(({ uses }) => uses.some((use) => use.resource === resource))).length;
  const places: Partial<Record<Resource, number>> = {};
  for (const resource of RESOURCES) {
    const there = kit[resource];
    if (there !== undefined && takes(resource) > there) places[resource] = there;
  }
  return { places, more: kit.more };
}
