/** What a browser says when a site may keep nothing more, or the disk is full (Storage Standard, WHATWG; Web IDL, `QuotaExceededError`). */
const NO_ROOM = 'QuotaExceededError';

/** Why something could not be kept on this device. */
export interface NotKept {
  /** True where there is no room: then it can be made. */
  readonly isFull: boolean;
  /** As the browser said it. */
  readonly because: string;
}

const FULL = {
  because: 'This device has no room left: what other devices note comes in again once there is some.',
} as const;

/** What a failed write says about this device. */
export const notKeptOf = (error: unknown): NotKept => ({
  isFull: error instanceof DOMException && error.name === NO_ROOM,
  because: messageOf(error),
});

/** The words for what could not be taken in or read. */
export const problemOf = (error: unknown): string => (notKeptOf(error).isFull ? FULL.because : messageOf(error));

export const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/**
 * Whether it was kept. Where the device could not, its frame says so and why; what was typed is left where it stands.
 * @throws anything else that went wrong
 */
export async function isKept(keeping: Promise<unknown>): Promise<boolean> {
  try {
    await keeping;
    return true;
  } catch (error) {
    if (error instanceof DOMException) return false;
    throw error;
  }
}
