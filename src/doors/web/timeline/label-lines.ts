/** How many lines a name takes when its words are wrapped; a word longer than a line is broken across lines. */
export function linesOf(input: { readonly text: string; readonly charsPerLine: number }): number {
  const room = Math.max(1, Math.floor(input.charsPerLine));
  let lines = 1;
  let used = 0;
  for (const { length } of input.text.split(' ')) {
    const next = used === 0 ? length : used + 1 + length;
    if (next <= room) {
      used = next;
      continue;
    }
    if (used > 0) lines += 1;
    lines += Math.ceil(length / room) - 1;
    used = length % room === 0 ? room : length % room;
  }
  return lines;
}
