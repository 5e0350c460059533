import type { Heard } from '../../../exchange/probe/probe-line.ts';

/** What an instrument tells while it is listened to. */
export interface Ears {
  readonly heard: (heard: Heard) => void;
  /** Something came that is no value; shown, so that a wrong baud rate is seen. */
  readonly unread: (text: string) => void;
  /** It has gone: the plug, the battery, the distance. */
  readonly lost: () => void;
}

/** How to find an instrument again; kept on the device while it is in use. */
export type Found =
  { readonly kind: 'serial'; readonly baudRate: number; readonly bareUnit: 'C' | 'F' } | { readonly kind: 'bluetooth' };

/** A measuring instrument that speaks by itself, whatever the wire. */
export interface Instrument {
  /** What its readings are marked with. */
  readonly id: string;
  /** Begins to listen; the answer ends it. */
  readonly listen: (ears: Ears) => Promise<() => Promise<void>>;
}

/** Opens the browser's own chooser and gives what was picked; null where nothing was. */
export type Pick = (found: Found) => Promise<Instrument | null>;

/** The chooser was closed without a choice, or nothing was there to choose. */
export const isNothingPicked = (error: unknown): boolean => error instanceof DOMException && error.name === 'NotFoundError'; // prettier-ignore
