import { Walk, MINUTE, NINE } from '../../walked-make.ts';

/** A make under way on the server, walked to a step by the forecast's own minutes. */
export interface Seeded {
  readonly walk: Walk;
  /** The clock at the moment it stands at, whole milliseconds UTC. */
  readonly at: number;
  readonly path: string;
}

/** Walks a make to a step, leaves it `minutes` there, and puts it on the server as another device would have. */
export async function seedMake(input: {
  readonly url: string;
  /** Left at its plan, with nothing begun, where null. */
  readonly stepId: string | null;
  readonly minutes?: number;
  readonly pHMeter?: boolean;
  readonly name?: string;
  /** Minutes after the planned start at which the first step begins. */
  readonly startsMin?: number;
  /** What is noted there besides. */
  readonly besides?: (walk: Walk) => void;
}): Promise<Seeded> {
  const { url, stepId, minutes = 2, pHMeter = true, name = 'Ash', startsMin = 0, besides } = input;
  const walk = new Walk({ pHMeter, name });
  walk.note([{ kind: 'planFrozen', body: { seed: 1, members: 500, modelVersion: '1', summary: {} } }]);
  walk.nowMin = startsMin;
  if (stepId !== null) walk.to(stepId);
  walk.nowMin += minutes;
  besides?.(walk);
  await sendEvents(url, walk.events);
  // A clock shows whole milliseconds; a timer begun at half of one would be refused.
  return { walk, at: Math.round(NINE + walk.nowMin * MINUTE), path: `/vat/${name.toLowerCase()}` };
}

const walked = new Map<string, { readonly events: readonly unknown[]; readonly at: number; readonly path: string }>();

/** The same make for several servers of one file: walked once, and not walked on afterwards. */
export async function seedSameMake(
  input: Omit<Parameters<typeof seedMake>[0], 'besides'>,
): Promise<Pick<Seeded, 'at' | 'path'>> {
  const { url, ...of } = input;
  const key = JSON.stringify(of);
  const known = walked.get(key);
  if (known !== undefined) {
    await sendEvents(url, known.events);
    return known;
  }
  const { walk, at, path } = await seedMake(input);
  walked.set(key, { events: [...walk.events], at, path });
  return { at, path };
}

/** Pushes events to a server, and says so where one is not taken. */
export async function sendEvents(url: string, events: readonly unknown[]): Promise<void> {
  const send = (): Promise<Response> =>
    fetch(`${url}/api/events`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ events }),
    });
  // While a make is walked nothing else runs here, and a line kept open may be closed meanwhile; sending twice is harmless.
  const response = await send().catch(send);
  const told = await response.text();
  if (!response.ok || told.includes('"refused"')) throw new Error(`The server did not take the make: ${told}`);
}
