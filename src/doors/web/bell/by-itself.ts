const KEY = 'vatside.bell-by-itself';

/** Whether this browser last let the bell sound without a tap: then nothing is said of it until it is known again. */
export function soundsByItself(): boolean {
  try {
    return localStorage.getItem(KEY) === 'yes';
  } catch {
    return false;
  }
}

/** Keeps what this browser did. */
export function keepByItself(does: boolean): void {
  try {
    localStorage.setItem(KEY, does ? 'yes' : 'no');
  } catch (error) {
    console.warn('Whether the bell sounds by itself could not be kept.', error);
  }
}
