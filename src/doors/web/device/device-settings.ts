import { useSyncExternalStore } from 'react';
import { z } from 'zod';
import { LANGUAGES, nearestLanguage } from '../../../exchange/words.ts';

/** What this device shows and how; never part of a record. `auto` follows the system between Day and Dark. */
const settingsSchema = z.object({
  light: z.enum(['auto', 'day', 'steam', 'dark']).catch('auto'),
  language: z.enum(LANGUAGES).catch('en-GB'),
  units: z.enum(['metric', 'us']).catch('metric'),
  /** The hand that taps: main actions stand on its side. */
  hand: z.enum(['right', 'left']).catch('right'),
  /** By quantity of the pad, where an instrument shows other units than the reader's. */
  padUnits: z.record(z.string(), z.enum(['metric', 'us'])).catch({}),
  /** The sign of the maker's own money, before a price. */
  currency: z.string().max(6).catch(''),
});
export type DeviceSettings = z.infer<typeof settingsSchema>;

const KEY = 'vatside.device';

function firstSettings(): DeviceSettings {
  const american = navigator.language === 'en-US';
  const stored = localStorage.getItem(KEY);
  const fresh: DeviceSettings = {
    light: 'auto',
    language: nearestLanguage(navigator.language),
    units: american ? 'us' : 'metric',
    hand: 'right',
    padUnits: {},
    currency: '',
  };
  if (stored === null) return fresh;
  try {
    return settingsSchema.parse(JSON.parse(stored));
  } catch {
    return fresh;
  }
}

/** The settings of this device, kept in its local storage and shared by all its tabs. */
export interface DeviceStore {
  readonly read: () => DeviceSettings;
  readonly change: (change: Partial<DeviceSettings>) => void;
  readonly subscribe: (onChange: () => void) => () => void;
}

export function openDeviceStore(): DeviceStore {
  let settings = firstSettings();
  const listeners = new Set<() => void>();
  const tell = (): void => listeners.forEach((listener) => listener());
  window.addEventListener('storage', (event) => {
    if (event.key !== KEY) return;
    settings = firstSettings();
    tell();
  });
  return {
    read: () => settings,
    change(change) {
      settings = { ...settings, ...change };
      localStorage.setItem(KEY, JSON.stringify(settings));
      tell();
    },
    subscribe(onChange) {
      listeners.add(onChange);
      return () => listeners.delete(onChange);
    },
  };
}

export function useDeviceSettings(store: DeviceStore): DeviceSettings {
  return useSyncExternalStore(store.subscribe, store.read);
}

/** The light that the page really stands in. */
export function lightNow(light: DeviceSettings['light']): 'day' | 'steam' | 'dark' {
  if (light !== 'auto') return light;
  if (matchMedia('(prefers-contrast: more)').matches) return 'steam';
  return matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'day';
}
