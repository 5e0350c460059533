import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exportedNames } from './schema-writer.ts';

const zod = join(createRequire(import.meta.url).resolve('zod'), '..', 'v4', 'core');

describe('the page is built without what writes JSON schemas', () => {
  it.each(['json-schema-processors.js', 'to-json-schema.js'])('and no name of %s goes missing by it', async (file) => {
    const exported = Object.keys((await import(join(zod, file))) as object);
    expect(exported.length).toBeGreaterThan(5);
    expect(exportedNames(readFileSync(join(zod, file), 'utf8')).sort()).toEqual(exported.sort());
  });

  it('which are read from declarations and lists alike', () => {
    expect(exportedNames('export const a = 1;\nexport function b() {}\nconst c = 1;\nexport { c, d as e };')).toEqual(['a', 'b', 'c', 'e']); // prettier-ignore
  });
});
