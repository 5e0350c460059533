/** The bell's other ways to be noticed: a voice, a shake, a message while the page is out of sight. None of them is alone. */
import type { Sound } from './ring.ts';
import { speaker } from './sounds.ts';
import { turns } from './turns.ts';

const SHAKE = { due: [200, 120, 200], act: [400, 150, 400, 150, 400] } as const;
const AFTER_SOUND_MS = { due: 700, act: 1300 } as const;

const inTurn = turns({ nowMs: () => performance.now(), later: (run, ms) => void setTimeout(run, ms) });

/** Makes one sound of the bell in every way this device has, after what it is saying already. */
export function tell(input: {
  readonly sound: Sound;
  readonly pot: string;
  readonly language: string;
  readonly tag: string;
}): void {
  const { sound, tag, pot } = input;
  inTurn({ isAct: sound.class === 'act', isSpoken: sound.isSpoken }, () => heard(input));
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
