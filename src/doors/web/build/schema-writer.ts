import type { Plugin } from 'vite';

/** The two files of zod that write JSON schemas; every schema refers to them, so no bundler can leave them out. */
const WRITER = /\/zod\/v4\/core\/(json-schema-processors|to-json-schema)\.js$/;

/**
 * Leaves zod's writer of JSON schemas out of the page: schemas are written by the scripts and the server, from the same
 * source. Whoever calls it in the page all the same is told so.
 */
export function withoutSchemaWriter(): Plugin {
  return {
    name: 'vatside-without-schema-writer',
    apply: 'build',
    enforce: 'pre',
    transform: {
      filter: { id: WRITER },
      handler(code) {
        return { code: `${REFUSE}\n${exportedNames(code).map(refusing).join('\n')}\n`, map: null };
      },
    },
  };
}

const REFUSE = `const refuse = () => { throw new TypeError('JSON schemas are written outside the page'); };`;
/** Methods are made for every schema and only called by a writer: making one is no call. */
const refusing = (name: string): string =>
  name.startsWith('create') ? `export const ${name} = () => refuse;` : `export { refuse as ${name} };`;

/** Names that a module exports, declared (`export const a`, `export function a`) or listed (`export { b as a }`). */
export function exportedNames(code: string): string[] {
  const declared = [...code.matchAll(/^export (?:const|function|class|let) (\w+)/gm)].map(([, name = '']) => name);
  const listed = [...code.matchAll(/^export \{([^}]*)\}/gm)].flatMap(([, list = '']) =>
    list.split(',').map(
      (one) =>
        one
          .trim()
          .split(/\s+as\s+/)
          .at(-1) ?? '',
    ),
  );
  return [...new Set([...declared, ...listed])].filter((name) => name !== '');
}
