import type { FaultPart } from './parts/part.ts';

/** Every part of `npm run faults` by its name, in the order they run and are told in. A part is loaded only when it runs. */
export const PARTS: Readonly<Record<string, () => Promise<FaultPart>>> = {
  kills: async () => (await import('./parts/kills.ts')).kills,
  syncs: async () => (await import('./parts/syncs.ts')).syncs,
  full: async () => (await import('./parts/full.ts')).full,
  database: async () => (await import('./parts/database.ts')).database,
  merges: async () => (await import('./parts/merges.ts')).merges,
  fuzz: async () => (await import('./parts/fuzz.ts')).fuzz,
  vats: async () => (await import('./parts/vats.ts')).vats,
  growth: async () => (await import('./parts/growth.ts')).growth,
};
