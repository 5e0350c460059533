import type { Catalogues } from '../../../exchange/words.ts';

const files = import.meta.glob<object>('../../../../words/*/*.json', { eager: true, import: 'default' });

/** Every catalogue file of the checkout, bundled: a dairy without a network has all its words. */
export function bundledCatalogues(): Catalogues {
  const catalogues: Record<string, Record<string, object>> = {};
  for (const [path, words] of Object.entries(files)) {
    const [, language, name] = /\/([a-zA-Z-]+)\/([a-z-]+)\.json$/.exec(path) ?? [];
    if (language === undefined || name === undefined) continue;
    (catalogues[language] ??= {})[name] = words;
  }
  return catalogues;
}
