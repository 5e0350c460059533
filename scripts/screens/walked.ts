import { newEvent } from '../../src/record/new-event.ts';
import type { ReadyItem } from '../../src/doors/web/vat/get-ready.ts';
import type { Event } from '../../src/record/event.ts';
import { sendEvents } from '../../tests/browser/tasks/seeded.ts';
import { MINUTE, NINE, Walk } from '../../tests/walked-make.ts';
import type { TestServer } from '../../tests/browser/server.ts';
import type { Beginning } from './sitting.ts';

interface Stop {
  readonly events: readonly Event[];
  readonly atMin: number;
}

/** One make walked on from step to step, kept as it stood at each: the pictures go the same way, not each its own. */
class Walked {
  readonly #walk;
  readonly #stops = new Map<string, Stop>();
  readonly #order: readonly string[];

  constructor(input: { readonly pHMeter: boolean; readonly name: string }) {
    this.#walk = new Walk(input);
    this.#walk.note([{ kind: 'planFrozen', body: { seed: 1, members: 500, modelVersion: '1', summary: {} } }]);
    this.#order = this.#walk.plan.steps.map(({ id }) => id);
    this.#stops.set('opened', { events: [...this.#walk.events], atMin: 0 });
  }

  /** @throws Error where the make has no such step */
  at(stepId: string): Stop {
    for (const id of this.#order) {
      const known = this.#stops.get(stepId);
      if (known !== undefined) return known;
      if (this.#stops.has(id)) continue;
      if (this.#stops.size === 1) this.#tick(this.#early());
      this.#walk.to(id);
      this.#stops.set(id, { events: [...this.#walk.events], atMin: this.#walk.nowMin });
      this.#tick(this.#walk.view.deferred);
    }
    const stop = this.#stops.get(stepId) ?? this.#finished(stepId);
    if (stop === null) throw new Error(`The make has no step ${stepId}.`);
    return stop;
  }

  /** All that is got ready before the milk, as the full list asks; hot water's own lists come with it. */
  #early(): readonly ReadyItem[] {
    const early = this.#walk.view.pauses.filter(({ id }) => id !== 'water' && id !== 'stretch');
    return early.flatMap(({ items }) => items);
  }

  /** Ticked off, so that the next step asks for nothing of an earlier one. */
  #tick(items: readonly ReadyItem[]): void {
    for (const { id } of items) this.#walk.note([{ kind: 'prepared', body: { item: id } }]);
  }

  /** After the last step. */
  #finished(stepId: string): Stop | null {
    if (stepId !== 'finished') return null;
    for (let guard = 0; guard < 4 && this.#walk.view.main !== null; guard++) this.#walk.press(2);
    const stop = { events: [...this.#walk.events], atMin: this.#walk.nowMin };
    this.#stops.set('finished', stop);
    return stop;
  }
}

const walks = new Map<string, Walked>();

/** The same make for every picture of it. */
function walkedMake(input: { readonly pHMeter: boolean; readonly name: string }): Walked {
  const key = `${input.name} ${input.pHMeter}`;
  const walked = walks.get(key) ?? new Walked(input);
  walks.set(key, walked);
  return walked;
}

/** All that is noted in the pot Ash when it comes to a step. */
export const stoodAt = (stepId: string): readonly Event[] =>
  walkedMake({ pHMeter: true, name: 'Ash' }).at(stepId).events;

/** A pot at a step (or `opened`, `finished`), some minutes into it, on the server as another device would have put it there. */
export async function potAt(
  server: TestServer,
  stepId: string,
  input: {
    readonly minutes?: number;
    readonly pHMeter?: boolean;
    readonly name?: string;
    readonly more?: readonly { readonly kind: string; readonly body: object }[];
  } = {},
): Promise<Beginning> {
  const { minutes = 2, pHMeter = true, name = 'Ash', more = [] } = input;
  const { events, atMin } = walkedMake({ pHMeter, name }).at(stepId);
  const at = NINE + (atMin + minutes) * MINUTE;
  await sendEvents(server.url, [...events, ...added({ name, at, more, after: events.length })]);
  return { at, path: `/vat/${name.toLowerCase()}` };
}

function added(input: {
  readonly name: string;
  readonly at: number;
  readonly more: readonly { readonly kind: string; readonly body: object }[];
  readonly after: number;
}): Event[] {
  let device = { deviceId: 'phone', deviceSeq: 0, clock: undefined as string | undefined };
  return input.more.map(({ kind, body }, index) => {
    const randomBytes = new Uint8Array(10)
      .fill(input.after + index)
      .fill(input.name.charCodeAt(0), 0, 1)
      .fill(1, 1, 2);
    const made = newEvent({ kind, body, streamId: `batch:${input.name.toLowerCase()}`, happenedAt: input.at, loggedAt: input.at, person: '', device, randomBytes }); // prettier-ignore
    device = { ...made.device, clock: made.device.clock };
    return made.event;
  });
}
