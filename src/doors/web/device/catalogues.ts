import type { i18n } from 'i18next';
import { LANGUAGES, openWords, type Language } from '../../../exchange/words.ts';

type Load = () => Promise<object>;
/** What the vat and the first screen say: the page waits for these, fetched beside its code. */
const first: Readonly<Record<string, Load>> = import.meta.glob<object>('../../../../words/*/{app,vat,advice,bell,findings,today}.json', { import: 'default' }); // prettier-ignore
/** What the other screens say comes with the first of them. */
const others: Readonly<Record<string, Load>> = import.meta.glob<object>(
  ['../../../../words/*/*.json', '!../../../../words/*/{app,vat,advice,bell,findings,today}.json'],
  { import: 'default' },
);

/** The catalogues of this checkout as the page holds them. */
export interface WordShelf {
  /** The words of a language; whatever is fetched later is added to them. */
  readonly open: (language: Language) => i18n;
  /** Fetches the first words. */
  readonly begin: () => Promise<void>;
  /** Fetches what is not here yet; every screen but the vat waits for it. Asked again after a failure, it tries again. */
  readonly fill: () => Promise<void>;
}

const placeOf = (path: string): { readonly language: Language; readonly name: string } | null => {
  const [, spoken, name] = /\/([a-zA-Z-]+)\/([a-z-]+)\.json$/.exec(path) ?? [];
  const language = LANGUAGES.find((one) => one === spoken);
  return language === undefined || name === undefined ? null : { language, name };
};

/** Opens an empty shelf. */
function openShelf(): WordShelf {
  const held: Partial<Record<Language, Record<string, object>>> = {};
  const opened = new Map<Language, i18n>();
  const add = (path: string, words: object): void => {
    const place = placeOf(path);
    if (place === null) return;
    (held[place.language] ??= {})[place.name] = words;
    for (const one of opened.values()) one.addResourceBundle(place.language, place.name, { ...words });
  };
  const fetchAll = async (files: Readonly<Record<string, Load>>): Promise<void> => {
    await Promise.all(Object.entries(files).map(async ([path, load]) => add(path, await load())));
  };
  let filling: Promise<void> | null = null;
  return {
    open(language) {
      const words = opened.get(language) ?? openWords({ language, catalogues: held });
      opened.set(language, words);
      return words;
    },
    begin: () => fetchAll(first),
    async fill() {
      filling ??= fetchAll(others);
      try {
        await filling;
      } catch (error) {
        filling = null;
        throw error;
      }
    },
  };
}

/** The one shelf of this page. */
export const wordShelf = openShelf();

/** A screen with the words it says: loads both side by side. */
export async function worded<T>(load: () => Promise<T>): Promise<T> {
  const [screen] = await Promise.all([load(), wordShelf.fill()]);
  return screen;
}
