import { useLayoutEffect, useState } from 'react';
import { lightNow, type DeviceSettings } from '../device/device-settings.ts';

/** Lights that the vat offers; Steam first, because glass fogs. */
export const VAT_LIGHTS = ['steam', 'day', 'dark'] as const;
export type VatLight = (typeof VAT_LIGHTS)[number];

const KEY = 'vatside.vat-light';

const stored = (): VatLight => VAT_LIGHTS.find((light) => light === localStorage.getItem(KEY)) ?? 'steam';

/** The vat's own light, kept on the device and put back to the desk's when the vat is left. */
export function useVatLight(settings: DeviceSettings): { readonly light: VatLight; readonly next: () => void } {
  const [light, setLight] = useState<VatLight>(stored);
  // Before the first paint: Steam is larger, and would move everything under the finger.
  useLayoutEffect(() => {
    const page = document.documentElement;
    const assert = (): void => {
      if (page.dataset['light'] !== light) page.dataset['light'] = light;
    };
    assert();
    localStorage.setItem(KEY, light);
    // The desk's setting follows the system; beside the vat the vat's own light stands.
    const observer = new MutationObserver(assert);
    observer.observe(page, { attributeFilter: ['data-light'] });
    return () => {
      observer.disconnect();
      page.dataset['light'] = lightNow(settings.light);
    };
  }, [light, settings.light]);
  const next = (): void => setLight(VAT_LIGHTS[(VAT_LIGHTS.indexOf(light) + 1) % VAT_LIGHTS.length] ?? 'steam');
  return { light, next };
}
