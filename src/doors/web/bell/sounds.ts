/**
 * The bell's two sounds, made on the spot: Due is two wooden knocks, Act five rising sweeps. Between 500 and 3,000 Hz, in
 * pulses, with harmonics (IEC 60601-1-8 annex D notes, at second hand; what exactly is our own design).
 */
import { keepByItself, soundsByItself } from './by-itself.ts';
import { volumeOf } from './volume.ts';

const KNOCK = { hz: 700, seconds: 0.15, apart: 0.28, quieter: 10 ** (-2 / 20) } as const; // the second 2 dB softer
const KNOCK_PARTIALS = [
  { times: 1, gain: 1 },
  { times: 2.76, gain: 0.35 }, // a free bar's second mode (Fletcher and Rossing 1998, The Physics of Musical Instruments, from memory)
  { times: 4, gain: 0.12 }, // a marimba's bar is cut so that its second mode lies here (from memory, ibid.); a free bar's third mode, 5.4, would pass 3,000 Hz
] as const;
const SWEEP = { fromHz: 500, toHz: 1500, pulses: 5, seconds: 0.16, apart: 0.22 } as const;
const SWEEP_PARTIALS = [
  { times: 1, gain: 0.8 },
  { times: 2, gain: 0.3 },
] as const;
const LOUD = 1.6; // about 4 dB
const SILENT = 0.0001;

/** What the browser lets the bell do. `asking`: as far as it did last time, it will sound. `none`: it makes no sound at all. */
export type Armed = 'armed' | 'asking' | 'silent' | 'none';

/** How long a browser may take to let the bell sound without a tap. */
const ASKING_MS = 1500;

/** The one sound output of the page; it needs a tap before it may sound. */
class Speaker {
  #context: AudioContext | null = null;
  #isAsking = soundsByItself();
  readonly #listeners = new Set<() => void>();

  get state(): Armed {
    if (typeof AudioContext === 'undefined') return 'none';
    if (this.#context?.state === 'running') return 'armed';
    return this.#isAsking ? 'asking' : 'silent';
  }

  /** Opens the output if the browser lets it; called on every tap until it does. */
  async arm(): Promise<void> {
    if (typeof AudioContext === 'undefined' || this.state === 'armed') return;
    if (this.#context === null) {
      this.#context = new AudioContext();
      this.#context.addEventListener('statechange', () => this.#tell());
      // A browser that plays only after a tap says nothing at all until there is one.
      setTimeout(() => {
        if (!navigator.userActivation.hasBeenActive) keepByItself(this.state === 'armed');
        this.#isAsking = false;
        this.#tell();
      }, ASKING_MS);
    }
    try {
      await this.#context.resume();
    } catch {
      // Refused without a tap: the strip goes on saying that the bell is silent.
    }
    this.#tell();
  }

  subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** Two wooden knocks. */
  due(): void {
    this.#play((context, out) => {
      for (const knock of [0, 1]) {
        for (const { times, gain } of KNOCK_PARTIALS) {
          const at = context.currentTime + knock * KNOCK.apart;
          const level = gain * (knock === 0 ? 1 : KNOCK.quieter);
          const tone = pulse(context, out, { at, seconds: KNOCK.seconds, level, attack: 0.002 });
          tone.frequency.setValueAtTime(KNOCK.hz * times, at);
        }
      }
    }, 1);
  }

  /** Five pulses that rise from 500 to 1,500 Hz, each a step of the sweep. */
  act(isLoud: boolean): void {
    this.#play(
      (context, out) => {
        const ratio = SWEEP.toHz / SWEEP.fromHz;
        for (let number = 0; number < SWEEP.pulses; number++) {
          const at = context.currentTime + number * SWEEP.apart;
          const from = SWEEP.fromHz * ratio ** (number / SWEEP.pulses);
          const to = SWEEP.fromHz * ratio ** ((number + 1) / SWEEP.pulses);
          for (const { times, gain } of SWEEP_PARTIALS) {
            const tone = pulse(context, out, { at, seconds: SWEEP.seconds, level: gain, attack: 0.015 });
            tone.frequency.setValueAtTime(from * times, at);
            tone.frequency.exponentialRampToValueAtTime(to * times, at + SWEEP.seconds);
          }
        }
      },
      isLoud ? LOUD : 1,
    );
  }

  #play(sound: (context: AudioContext, out: AudioNode) => void, louder: number): void {
    const context = this.#context;
    if (context === null || context.state !== 'running') return;
    const limit = context.createDynamicsCompressor();
    const volume = context.createGain();
    volume.gain.value = volumeOf() * louder;
    volume.connect(limit).connect(context.destination);
    sound(context, volume);
  }

  #tell(): void {
    for (const listener of this.#listeners) listener();
  }
}

/** One decaying tone; its frequency is set by the caller. */
function pulse(
  context: AudioContext,
  out: AudioNode,
  of: { readonly at: number; readonly seconds: number; readonly level: number; readonly attack: number },
): OscillatorNode {
  const { at, seconds, level, attack } = of;
  const tone = context.createOscillator();
  const envelope = context.createGain();
  envelope.gain.setValueAtTime(SILENT, at);
  envelope.gain.exponentialRampToValueAtTime(level, at + attack);
  envelope.gain.exponentialRampToValueAtTime(SILENT, at + seconds);
  tone.connect(envelope).connect(out);
  tone.start(at);
  tone.stop(at + seconds + 0.02);
  return tone;
}

export const speaker = new Speaker();
