import { describe, expect, it } from 'vitest';
import { batchBodies, otherBodies } from '../record/event.ts';
import { eventJsonSchema } from './json-schema.ts';

describe('the schema of events', () => {
  it('has a shape for every kind, and one for kinds of a newer program', () => {
    const text = JSON.stringify(eventJsonSchema());
    for (const kind of Object.keys({ ...batchBodies, ...otherBodies })) expect(text).toContain(`"const":"${kind}"`);
    expect(text).toContain('"not":{"enum":["batchOpened"');
    expect(text).toContain('"$schema":"https://json-schema.org/draft/2020-12/schema"');
  });
});
