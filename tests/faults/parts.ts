import type { FaultPart } from './parts/part.ts';

/** Every part of `npm run faults` by its name, in the order they run and are told in. A part is loaded only when it runs. */
export const PARTS: Readonly<Record<string, () => Promise<FaultPart>>> = {
  kills: async () => (await import('./parts/kills.ts')).kills,
  merges: async () => (await import('./parts/merges.ts')).merges,
  vats: async () => (await import('./parts/vats.ts')).vats,
  growth: async () => (await import('./parts/growth.ts')).growth,
};
