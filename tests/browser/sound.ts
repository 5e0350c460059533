import type { BrowserContext, Page } from 'playwright-core';

/** A tone that the page started: its first frequency, and the page's clock. */
export interface Tone {
  readonly hz: number;
  readonly at: number;
}

/** Writes down every tone that the pages of a profile start. */
export async function spyOnSound(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const heard: Tone[] = [];
    Object.assign(globalThis, { heard });
    globalThis.AudioContext = class extends AudioContext {
      override createOscillator(): OscillatorNode {
        const tone = super.createOscillator();
        const set = tone.frequency.setValueAtTime.bind(tone.frequency);
        tone.frequency.setValueAtTime = (hz, at) => {
          heard.push({ hz, at: Date.now() });
          return set(hz, at);
        };
        return tone;
      }
    };
  });
}

/** What was heard since the page was opened. */
export const tonesHeard = (page: Page): Promise<Tone[]> =>
  page.evaluate(() => (globalThis as unknown as { heard: Tone[] }).heard);
