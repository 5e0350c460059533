/** Hands a text to the browser as a file to keep. */
export function saveFile(input: { readonly name: string; readonly type: string; readonly text: string }): void {
  const { name, type, text } = input;
  const address = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser reads the address after the click has returned.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
