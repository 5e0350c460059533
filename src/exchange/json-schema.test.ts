import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { batchBodies, otherBodies } from '../record/event.ts';
import { copyText } from './copy/copy-text.ts';
import { copyJsonSchema, eventJsonSchema } from './json-schema.ts';

describe('the schema of events', () => {
  it('has a shape for every kind, and one for kinds of a newer program', () => {
    const text = JSON.stringify(eventJsonSchema());
    for (const kind of Object.keys({ ...batchBodies, ...otherBodies })) expect(text).toContain(`"const":"${kind}"`);
    expect(text).toContain('"not":{"enum":["batchOpened"');
    expect(text).toContain('"$schema":"https://json-schema.org/draft/2020-12/schema"');
  });
});

describe('docs/copy.schema.json', () => {
  const written = readFileSync(new URL('../../docs/copy.schema.json', import.meta.url), 'utf8');

  it('is the schema that reads copies (npx tsx scripts/write-schemas.ts writes it anew)', () => {
    expect(JSON.parse(written)).toEqual(JSON.parse(JSON.stringify(copyJsonSchema())));
  });

  it('takes every line of a copy, and none that is something else', () => {
    // The reader of schemas knows no "not"; without it the last shape takes known kinds with any body, so kinds are tried by theirs.
    const schema = z.fromJSONSchema(JSON.parse(written, (key, value: unknown) => (key === 'not' ? undefined : value)) as z.core.JSONSchema.JSONSchema);
    const event = { id: 'one', streamId: 'batch:ash', kind: 'noted', version: 1, happenedAt: 5, loggedAt: 5, clock: '000000000000005-00000', person: 'M', deviceId: 'tablet', deviceSeq: 0, body: { text: 'foam' } };
    const lines = copyText(new Map([['batch:ash', [event, { ...event, id: 'two', kind: 'sprinkled', version: 4 }]]])).trimEnd().split('\n');
    expect(lines).toHaveLength(4);
    for (const line of lines) expect(schema.safeParse(JSON.parse(line)).success, line).toBe(true);
    for (const wrong of [{}, [], { format: 'vatside-copy', version: 2 }, { end: 'vatside-copy', sha256: 'x' }, { ...event, streamId: 'batch:../x' }, { ...event, more: 1 }]) {
      expect(schema.safeParse(wrong).success, JSON.stringify(wrong)).toBe(false);
    }
  });
}); // prettier-ignore
