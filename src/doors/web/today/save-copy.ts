import { localDay } from '../plan/wall-clock.ts';

/** Hands the whole log to the browser as one file to keep. */
export function saveCopy(input: { readonly text: string; readonly now: number }): void {
  const address = URL.createObjectURL(new Blob([input.text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = `vatside-${localDay(input.now)}.json`;
  link.click();
  // The browser reads the address after the click has returned.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
