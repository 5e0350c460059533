import { createContext, useContext, useEffect, useMemo, type ReactNode } from 'react';
import { sayFrom, type Language, type Say } from '../../../exchange/words.ts';
import { openWriter, type Writer } from '../../../exchange/written.ts';
import { wordShelf } from './catalogues.ts';
import { lightNow, useDeviceSettings, type DeviceSettings, type DeviceStore } from './device-settings.ts';

/** Who reads this screen: their words, their units, their light. */
export interface Reader {
  readonly language: Language;
  readonly say: Say;
  readonly write: Writer;
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

export function ReaderProvider({
  store,
  children,
}: {
  readonly store: DeviceStore;
  readonly children: ReactNode;
}): ReactNode {
  const settings = useDeviceSettings(store);
  const words = wordShelf.open(settings.language);
  const reader = useMemo<Reader>(
    () => ({
      language: settings.language,
      say: sayFrom(words),
      write: openWriter({ language: settings.language, units: settings.units }),
      settings,
      change: store.change,
    }),
    [words, settings, store],
  );
  useEffect(() => {
    document.documentElement.lang = settings.language;
    document.documentElement.dataset['hand'] = settings.hand;
    const follow = (): void => {
      document.documentElement.dataset['light'] = lightNow(settings.light);
    };
    follow();
    const systemDark = matchMedia('(prefers-color-scheme: dark)');
    systemDark.addEventListener('change', follow);
    return () => systemDark.removeEventListener('change', follow);
  }, [settings]);
  return <ReaderContext.Provider value={reader}>{children}</ReaderContext.Provider>;
}
