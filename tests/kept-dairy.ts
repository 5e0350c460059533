/** What a dairy that has used Vatside for a while holds: the worked example's events, as if they were its own. */
import { readdirSync, readFileSync } from 'node:fs';
import { demoEvents, parseDemo } from '../src/exchange/demo.ts';
import { parseMake } from '../src/make/make.ts';
import type { Event } from '../src/record/event.ts';

const read = (path: string): unknown => JSON.parse(readFileSync(new URL(`../${path}`, import.meta.url), 'utf8'));

/** @returns events of batches, lots, pieces and places, and a make of the dairy's own */
export function keptDairy(): readonly Event[] {
  const makes = readdirSync(new URL('../makes', import.meta.url)).map((file) => parseMake(read(`makes/${file}`)));
  const demo = parseDemo(read('demo/larkenshaw.json'));
  const events = demoEvents({ demo, makes, nowAt: Date.UTC(2026, 10, 25, 11) });
  const own = JSON.parse(JSON.stringify(events).replaceAll(':demo-', ':')) as Event[];
  const [first] = own;
  if (first === undefined) throw new Error('the example has no events');
  const { $schema: _, ...make } = read('makes/stretched-ball.json') as Record<string, Event['body'][string]>;
  const saved: Event = {
    ...first,
    id: 'own-make',
    streamId: 'make:own-ball',
    kind: 'makeSaved',
    body: { make: { ...make, id: 'own-ball' } },
  };
  return [...own, saved];
}
