import { createInstance, type i18n, type Resource } from 'i18next';

/** The two catalogues. US English holds only what differs; everything else falls back to UK English. */
export const LANGUAGES = ['en-GB', 'en-US'] as const;
export type Language = (typeof LANGUAGES)[number];

/** Catalogue files by name (`plan`, `vat`, `findings`, …) for each language, as a door read them. */
export type Catalogues = Readonly<Partial<Record<Language, Readonly<Record<string, object>>>>>;

/** A sentence from the catalogues: `say('plan:start.at', { time: '09:05' })`. Plurals by `count`. */
export type Say = (key: string, values?: Readonly<Record<string, string | number>>) => string;

/**
 * Opens the catalogues for one reader. A key that is missing comes back as the key itself, so that nothing is blank;
 * the word test finds every such key before a person does.
 * @param input.language which catalogue speaks first
 * @param input.catalogues the files, by language and name; doors read them (bundled on the web, from disk elsewhere)
 * @returns an i18next instance, ready to use at once
 */
export function openWords(input: { readonly language: Language; readonly catalogues: Catalogues }): i18n {
  const words = createInstance();
  void words.init({
    lng: input.language,
    fallbackLng: 'en-GB',
    supportedLngs: [...LANGUAGES],
    resources: resourcesOf(input.catalogues),
    ns: Object.keys(input.catalogues['en-GB'] ?? {}),
    defaultNS: 'app',
    initAsync: false,
    returnNull: false,
    interpolation: { escapeValue: false },
  });
  return words;
}

/** i18next writes into what it is given, so it gets records of its own. */
function resourcesOf(catalogues: Catalogues): Resource {
  return Object.fromEntries(
    Object.entries(catalogues).map(([language, files]) => [
      language,
      Object.fromEntries(Object.entries(files).map(([name, words]) => [name, { ...words }])),
    ]),
  );
}

/** Sentences kept of those said; a card says a hundred, and a new one whenever a number in it changes. */
const MOST_KEPT = 2000;

/**
 * The plain speaking function of opened catalogues, for view models and the command line. What was said before is not put
 * together again: a card says nearly the same each second.
 */
export function sayFrom(words: i18n): Say {
  const said = new Map<string, string>();
  words.store.on('added', () => said.clear());
  return (key, values) => {
    const asked = values === undefined ? key : `${key} ${JSON.stringify(values)}`;
    const known = said.get(asked);
    if (known !== undefined) return known;
    if (said.size >= MOST_KEPT) said.clear();
    const text = words.t(key, { ...values });
    said.set(asked, text);
    return text;
  };
}
