/** The bell's other ways to be noticed: a voice, a shake, a message while the page is out of sight. None of them is alone. */
import type { Sound } from './ring.ts';
import { speaker } from './sounds.ts';

const SHAKE = { due: [200, 120, 200], act: [400, 150, 400, 150, 400] } as const;
const AFTER_SOUND_MS = { due: 700, act: 1300 } as const;

/** How long a sound takes, and with its words: two pots never talk at once. Our own choice. */
const SOUND_MS = 1500;
const SAID_MS = 6000;
let quietAt = -Infinity;
let freeAt = -Infinity;

/** How long a sound waits for the one before it: an Act only until that has rung, a due thing until its words are over too. */
function waitMs(isAct: boolean, isSpoken: boolean): number {
  const now = performance.now();
  const at = Math.max(now, isAct ? quietAt : freeAt);
  quietAt = at + SOUND_MS;
  freeAt = Math.max(freeAt, at + (isSpoken ? SAID_MS : SOUND_MS));
  return at - now;
}

/** Makes one sound of the bell in every way this device has, after what it is saying already. */
export function tell(input: {
  readonly sound: Sound;
  readonly pot: string;
  readonly language: string;
  readonly tag: string;
}): void {
  const { sound, tag, pot } = input;
  const waits = waitMs(sound.class === 'act', sound.isSpoken);
  if (waits > 0) setTimeout(() => heard(input), waits);
  else heard(input);
  if (sound.isFirst && document.visibilityState === 'hidden') {
    const [first] = sound.calls;
    void message({ title: `${pot}: ${first?.seen ?? ''}`, body: first?.what ?? '', tag: `${tag}.${first?.id ?? ''}` });
  }
}

function heard({ sound, pot, language }: Parameters<typeof tell>[0]): void {
  if (sound.class === 'act') speaker.act(sound.isLoud);
  else speaker.due();
  // A browser blocks and complains of it before the first tap.
  if ('vibrate' in navigator && navigator.userActivation.hasBeenActive) navigator.vibrate([...SHAKE[sound.class]]);
  const words = sound.calls.map((call) => call.spoken).join(' ');
  if (sound.isSpoken) setTimeout(() => speak(`${pot}. ${words}`, language), AFTER_SOUND_MS[sound.class]);
}

/** Speaks with a voice that is on the device: nothing of a make goes to somebody else's computer. */
function speak(text: string, language: string): void {
  if (!('speechSynthesis' in globalThis)) return;
  const [family = 'en'] = language.split('-');
  const voices = speechSynthesis.getVoices().filter((voice) => voice.localService && voice.lang.startsWith(family));
  const voice = voices.find((one) => one.lang.replace('_', '-') === language) ?? voices[0];
  if (voice === undefined) return;
  const words = new SpeechSynthesisUtterance(text);
  words.voice = voice;
  words.lang = voice.lang;
  speechSynthesis.speak(words);
}

/** A message of the system, where it was allowed. */
async function message(input: { readonly title: string; readonly body: string; readonly tag: string }): Promise<void> {
  if (!('Notification' in globalThis) || Notification.permission !== 'granted') return;
  const { title, body, tag } = input;
  try {
    const worker = await navigator.serviceWorker?.getRegistration();
    if (worker !== undefined) {
      await worker.showNotification(title, { body, tag, requireInteraction: true });
      return;
    }
    const shown = new Notification(title, { body, tag, requireInteraction: true });
    shown.addEventListener('click', () => window.focus());
  } catch (error) {
    console.warn('No message could be shown.', error);
  }
}
