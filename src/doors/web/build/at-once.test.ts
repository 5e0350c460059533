import { describe, expect, it } from 'vitest';
import { atOnce, needed } from './at-once.ts';

/** A page, the vat and Today, sharing the log; the vat and the log lean on each other. */
const GRAPH: Readonly<Record<string, readonly string[]>> = {
  page: ['words'],
  vat: ['log', 'rim', 'words'],
  today: ['log', 'shelf'],
  log: ['events', 'vat'],
};
const importsOf = (id: string) => ({ importedIds: GRAPH[id] ?? [] });
const graph = { getModuleInfo: importsOf };

describe('what a screen needs for its first answer', () => {
  it('is all that it imports at once, however deep and in a circle too', () => {
    expect([...needed('vat', importsOf)].sort()).toEqual(['events', 'log', 'rim', 'vat', 'words']);
  });

  it('stands in one file, without what every page has', () => {
    const inVat = atOnce({ entry: 'page', screen: 'vat' }, 'at the vat');
    expect(['vat', 'rim', 'log'].map((id) => inVat(id, graph))).toEqual(['at the vat', 'at the vat', 'at the vat']);
    expect(['words', 'shelf', 'page'].map((id) => inVat(id, graph))).toEqual([null, null, null]);
  });
});
