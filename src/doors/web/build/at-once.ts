/** What a bundler tells of a module: the modules it imports at once, by id. */
interface Imports {
  readonly importedIds: readonly string[];
}

type ImportsOf = (moduleId: string) => Imports | null;

/** All that a module cannot run without, itself among it. */
export function needed(moduleId: string, importsOf: ImportsOf): ReadonlySet<string> {
  const seen = new Set<string>();
  const toVisit = [moduleId];
  for (let id = toVisit.pop(); id !== undefined; id = toVisit.pop()) {
    if (seen.has(id)) continue;
    seen.add(id);
    toVisit.push(...(importsOf(id)?.importedIds ?? []));
  }
  return seen;
}

/**
 * Puts all that one screen needs for its first answer, beyond what every page has, into one file: many small ones, each shared
 * with another set of screens, compress worse and are fetched one by one.
 * @param files ids of the page's entry and of the screen
 * @param name the file's name
 * @returns for a bundler's grouping: the name for a module of the screen's, null for any other
 */
export function atOnce(files: { readonly entry: string; readonly screen: string }, name: string) {
  let own: ReadonlySet<string> | null = null;
  const found = (importsOf: ImportsOf): ReadonlySet<string> => {
    const everywhere = needed(files.entry, importsOf);
    return new Set([...needed(files.screen, importsOf)].filter((id) => !everywhere.has(id)));
  };
  return (moduleId: string, graph: { getModuleInfo(id: string): Imports | null }): string | null => {
    own ??= found((id) => graph.getModuleInfo(id));
    return own.has(moduleId) ? name : null;
  };
}
