import { useEffect } from 'react';

/**
 * Keys for the vat: each visible button that names a key is pressed by it, so that a pedal or a knocked-in keyboard
 * serves as well as a finger. Keys typed into a field stay there, and Enter on a button that keys have reached is that button's own.
 */
export function useVatKeys(): void {
  useEffect(() => {
    let byTab = false;
    const tapped = (): void => {
      byTab = false;
    };
    const press = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
      const target = event.target instanceof HTMLElement ? event.target : null;
      if (target?.closest('input, textarea, select, dialog') != null) return;
      // A button reached by Tab answers Enter itself; one merely tapped before leaves Enter to the main action.
      if (event.key === 'Tab') byTab = true;
      const reached = byTab && target?.closest('button, a, summary') != null;
      if (event.key === ' ' || (event.key === 'Enter' && reached)) return;
      const wanted = event.key === 'PageDown' ? 'Enter' : event.key;
      const named = [...document.querySelectorAll<HTMLButtonElement>('button[data-key]')];
      const button = named.find(
        (one) =>
          one.dataset['key']?.toLowerCase() === wanted.toLowerCase() &&
          !one.disabled &&
          one.getClientRects().length > 0,
      );
      if (button === undefined) return;
      event.preventDefault();
      button.click();
    };
    document.addEventListener('keydown', press);
    document.addEventListener('pointerdown', tapped);
    return () => {
      document.removeEventListener('keydown', press);
      document.removeEventListener('pointerdown', tapped);
    };
  }, []);
}
