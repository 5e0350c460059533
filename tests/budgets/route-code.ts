import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync } from 'node:zlib';

const ASSETS = fileURLToPath(new URL('../../dist/web/assets/', import.meta.url));

/** A file of the built app and what it weighs when it is sent compressed. */
export interface Weighed {
  readonly file: string;
  readonly kB: number;
}

/**
 * Code and styles that a screen cannot answer without: the page's entry, the screen's chunk, and everything they import at once.
 * What comes after the first answer (pages, workers, words of other screens) is not among it.
 * @param chunk name of the screen's chunk, `vat-screen`
 */
export function routeCode(chunk: string): readonly Weighed[] {
  const files = readdirSync(ASSETS);
  const named = (name: string, kind: string): string[] => files.filter((file) => new RegExp(`^${name}-[\\w-]{8}\\.${kind}$`).test(file)); // prettier-ignore
  const seen = new Set<string>();
  const visit = (file: string): void => {
    if (seen.has(file)) return;
    seen.add(file);
    const code = readFileSync(ASSETS + file, 'utf8');
    for (const [, imported = ''] of code.matchAll(/(?:from|import)\s*"\.\/([^"]+\.js)"/g)) visit(imported);
  };
  for (const file of [...named('index', 'js'), ...named(chunk, 'js')]) visit(file);
  const styles = [...seen].flatMap((file) => named(file.replace(/-[\w-]{8}\.js$/, ''), 'css'));
  return [...seen, ...new Set(styles)].map((file) => ({
    file,
    kB: brotliCompressSync(readFileSync(ASSETS + file)).length / 1000,
  }));
}
