import { readFileSync } from 'node:fs';
import { demoEvents, parseDemo } from '../../../src/exchange/demo.ts';
import type { Event } from '../../../src/record/event.ts';
import { seedMake, sendEvents } from '../tasks/seeded.ts';
import type { Walk } from '../../walked-make.ts';

/** Four pots, each left where a screen of its own stands: under way, at a judgement, before its start, at its end. */
export const POTS: readonly { readonly name: string; readonly stepId: string | null; readonly besides?: (walk: Walk) => void }[] = [
  { name: 'Ash', stepId: 'draw-whey' },
  { name: 'Birch', stepId: 'set', besides: (walk) => void walk.press(10) },
  { name: 'Elm', stepId: null },
  { name: 'Cedar', stepId: 'store', besides: (walk) => void walk.press(1) },
]; // prettier-ignore

const EXAMPLE = new URL('../../../demo/larkenshaw.json', import.meta.url);

/**
 * Puts the pots on a server, with the example's shelves, cheeses and brine beside them.
 * @returns the moment at which the first of them stands
 */
export async function seedPots(url: string): Promise<number> {
  const times: number[] = [];
  for (const pot of POTS) times.push((await seedMake({ url, ...pot })).at);
  const [at] = times;
  if (at === undefined) throw new Error('no pot was seeded');
  const demo = parseDemo(JSON.parse(readFileSync(EXAMPLE, 'utf8')));
  const events = demoEvents({ demo: { ...demo, batches: [], plans: [] }, makes: [], nowAt: at });
  // A server takes no worked example: here they are somebody's own.
  await sendEvents(url, JSON.parse(JSON.stringify(events).replaceAll(':demo-', ':')) as Event[]);
  return at;
}
