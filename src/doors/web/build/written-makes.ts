import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { typicalDays } from '../../../exchange/typical-day.ts';
import { makeFacts } from '../../../make/make-facts.ts';
import { parseMake } from '../../../make/make.ts';

const MAKES = fileURLToPath(new URL('../../../../makes/', import.meta.url));
/** Where the facts are worked out from the whole makes. */
const FACTS = /\/src\/doors\/web\/makes\/written-facts\.ts$/;

/** Gives the page the facts of every make as they were worked out when it was built, so that no screen carries the makes. */
export function withWrittenMakes(): Plugin {
  return {
    name: 'vatside-with-written-makes',
    apply: 'build',
    enforce: 'pre',
    transform: { filter: { id: FACTS }, handler: () => ({ code: writtenMakes(), map: null }) },
  };
}

let written: string | null = null;

/** A module that stands in for `makes/written-facts.ts` in the page; worked out once, however many bundles ask. */
export const writtenMakes = (): string => (written ??= workedOut());

function workedOut(): string {
  const listed = readdirSync(MAKES)
    .filter((name) => name.endsWith('.json'))
    .map((name) => parseMake(JSON.parse(readFileSync(`${MAKES}${name}`, 'utf8'))))
    .map((make) => ({ facts: makeFacts(make), days: typicalDays(make) }));
  return `const FACTS = ${JSON.stringify(listed)};\nexport function writtenFacts() {\n  return FACTS;\n}\n`;
}
