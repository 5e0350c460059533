/** Longer than this no page waits for its letters; they are changed under the reader's eyes then, as a browser does. */
const PATIENCE_MS = 400;
const FONTS = ["700 20px 'Bitter Variable'", "500 20px 'Atkinson Hyperlegible Next Variable'"] as const;

/** Waits a moment for the two typefaces: set in another one first, everything on the card would move when they come. */
export async function fontsThere(): Promise<void> {
  const loading = Promise.all(FONTS.map((font) => document.fonts.load(font))).catch(() => undefined); // prettier-ignore
  await Promise.race([loading, new Promise((done) => setTimeout(done, PATIENCE_MS))]);
}
