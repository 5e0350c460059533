import { localDay } from '../plan/wall-clock.ts';

/** Hands the whole log to the browser as one file to keep. */
export function saveCopy(input: { readonly text: string; readonly now: number }): void {
  saveText({ text: input.text, type: 'application/x-ndjson', name: `vatside-${localDay(input.now)}.ndjson` });
}

/** Hands a text to the browser as a file to keep. */
export function saveText(input: { readonly text: string; readonly type: string; readonly name: string }): void {
  const address = URL.createObjectURL(new Blob([input.text], { type: input.type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = input.name;
  link.click();
  // The browser reads the address after the click has returned.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
