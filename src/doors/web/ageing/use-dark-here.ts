import { useLayoutEffect } from 'react';
import { lightNow, type DeviceSettings } from '../device/device-settings.ts';

/** The ageing room is dark: where the device follows the system, its places are Dark; a light that was chosen stands. */
export function useDarkHere(settings: DeviceSettings): void {
  useLayoutEffect(() => {
    if (settings.light !== 'auto' || lightNow('auto') === 'steam') return;
    const page = document.documentElement;
    const assert = (): void => {
      if (page.dataset['light'] !== 'dark') page.dataset['light'] = 'dark';
    };
    assert();
    // The system's own change of light would take it away.
    const observer = new MutationObserver(assert);
    observer.observe(page, { attributeFilter: ['data-light'] });
    return () => {
      observer.disconnect();
      page.dataset['light'] = lightNow(settings.light);
    };
  }, [settings.light]);
}
