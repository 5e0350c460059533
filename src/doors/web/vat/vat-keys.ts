import { useEffect } from 'react';

/**
 * Keys for the vat: each visible button that names a key is pressed by it, so that a pedal or a knocked-in keyboard
 * serves as well as a finger. Keys typed into a field stay there, and Enter on a focused button is that button's own.
 */
export function useVatKeys(): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
      const target = event.target instanceof HTMLElement ? event.target : null;
      if (target?.closest('input, textarea, select, dialog') != null) return;
      if ((event.key === 'Enter' || event.key === ' ') && target?.closest('button, a, summary') != null) return;
      const wanted = event.key === 'PageDown' ? 'Enter' : event.key;
      const named = [...document.querySelectorAll<HTMLButtonElement>('button[data-key]')];
      const button = named.find((one) => one.dataset['key']?.toLowerCase() === wanted.toLowerCase() && !one.disabled);
      if (button === undefined) return;
      event.preventDefault();
      button.click();
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, []);
}
