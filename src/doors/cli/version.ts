import { join } from 'node:path';
import { z } from 'zod';
import { ROOT } from './catalogues.ts';
import type { World } from './world.ts';

/** The version that the package states. */
export function versionOf(world: Pick<World, 'readFile'>): string {
  const json: unknown = JSON.parse(world.readFile(join(ROOT, 'package.json')));
  return z.object({ version: z.string() }).parse(json).version;
}
