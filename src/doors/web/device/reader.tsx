import { createContext, useContext, useEffect, useMemo, useState, type ReactNode } from 'react';
import { directionOf, sayFrom, type Language, type Say } from '../../../exchange/words.ts';
import type { Book } from '../../../exchange/book.ts';
import { openWriter, type Writer } from '../../../exchange/written.ts';
import { wordShelf } from './catalogues.ts';
import { lightNow, useDeviceSettings, type DeviceSettings, type DeviceStore } from './device-settings.ts';

/** Who reads this screen: their words, their units, their light. */
export interface Reader {
  readonly language: Language;
  readonly say: Say;
  readonly write: Writer;
  /** What makes and sums say, in their words. */
  readonly book: Book;
  readonly settings: DeviceSettings;
  readonly change: DeviceStore['change'];
}

const ReaderContext = createContext<Reader | null>(null);

/** The words and the writer of quantities for this device; every component that shows a word takes them from here. */
export function useReader(): Reader {
  const reader = useContext(ReaderContext);
  if (reader === null) throw new Error('useReader needs a ReaderProvider above it');
  return reader;
}

const OTHER_HAND = { left: 'right', right: 'left' } as const;

/** The language that is spoken: the one that was chosen, as soon as its words are here, and the one before until then. */
function useSpoken(chosen: Language): Language {
  const [spoken, setSpoken] = useState(chosen);
  useEffect(() => {
    if (chosen === spoken) return undefined;
    let isWanted = true;
    wordShelf.begin(chosen).then(
      () => isWanted && setSpoken(chosen),
      () => undefined, // Without a network the words before stay; they are asked for again with the next page.
    );
    return () => {
      isWanted = false;
    };
  }, [chosen, spoken]);
  return spoken;
}

export function ReaderProvider({
  store,
  children,
}: {
  readonly store: DeviceStore;
  readonly children: ReactNode;
}): ReactNode {
  const settings = useDeviceSettings(store);
  const language = useSpoken(settings.language);
  const words = wordShelf.open(language);
  const book = wordShelf.book(language);
  const reader = useMemo<Reader>(
    () => ({
      language,
      say: sayFrom(words, book),
      write: openWriter({ language, units: settings.units, book }),
      book,
      settings,
      change: store.change,
    }),
    [language, words, book, settings, store],
  );
  useEffect(() => {
    document.documentElement.lang = language;
    const direction = directionOf(language);
    document.documentElement.dir = direction;
    // Places are given in reading order, and a hand stays where it is.
    document.documentElement.dataset['hand'] = direction === 'ltr' ? settings.hand : OTHER_HAND[settings.hand];
    const follow = (): void => {
      document.documentElement.dataset['light'] = lightNow(settings.light);
    };
    follow();
    const systemDark = matchMedia('(prefers-color-scheme: dark)');
    systemDark.addEventListener('change', follow);
    return () => systemDark.removeEventListener('change', follow);
  }, [settings, language]);
  return <ReaderContext.Provider value={reader}>{children}</ReaderContext.Provider>;
}
