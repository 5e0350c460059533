import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { attackApi } from './attack/api-attack.ts';
import { attackImports } from './attack/import-attack.ts';
import { attacks, type Described } from './attack/requests.ts';
import { wrongWith } from './attack/wrong-answer.ts';

/** The short form of `npm run faults -- fuzz`. */

const SEED = 20261129;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-fuzz-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('whatever is sent to the server', () => {
  it('is taken, or refused with what is wrong and what to do; nothing that is there changes, and every route was asked', async () => {
    const { wrong, taken, refused, eventsKept, routes } = await attackApi({ folder, seed: SEED, runs: 1100 });
    expect(wrong).toEqual([]);
    // Some of what was sent was good: the routes were reached, and not only their doors.
    expect(Math.min(taken, refused)).toBeGreaterThan(300);
    expect(eventsKept).toBeGreaterThan(40);
    expect(routes).toBeGreaterThan(60);
  });

  it('cannot leave out a route: one with a part of its path that nobody has thought of stops the run', () => {
    const described: Described = { paths: { '/api/cellars/{cellarId}': { get: { parameters: [] } } } };
    expect(() => attacks({ described, target: { deviceIds: ['a'] }, examples: new Map() })).toThrow('/api/cellars/{cellarId}: nothing says what to put for {cellarId}'); // prettier-ignore
  });
});

describe('whatever comes in as a file or a link', () => {
  it('is taken whole, or refused with its place and what to do', () => {
    const { wrong, taken, refused } = attackImports({ seed: SEED, runs: 400 });
    expect(wrong).toEqual([]);
    expect(taken).toBeGreaterThan(40);
    expect(refused).toBeGreaterThan(150);
  });
});

describe('the judge of answers', () => {
  it('lets no fault of the server pass, no refusal without its field, and no answer without its headers', () => {
    const judged = (text: string, init: ResponseInit): string[] => wrongWith({ answer: new Response(text, init), text, method: 'GET' }); // prettier-ignore
    const problem = { 'content-type': 'application/problem+json' };
    expect(judged('{}', { status: 200 }).join()).toMatch(/content-security-policy.*nosniff|x-content-type-options/s);
    expect(judged('oh', { status: 500 }).join()).toContain('500 oh');
    expect(judged('{"title":"no","status":400,"errors":[]}', { status: 400, headers: problem }).join()).toContain('400 without errors'); // prettier-ignore
    expect(judged('no', { status: 404 }).join()).toContain('404 as text/plain');
    fc.assert(fc.property(fc.integer({ min: 500, max: 599 }), (status) => judged('', { status }).some((one) => one.startsWith(`${status} `)))); // prettier-ignore
  });
});
