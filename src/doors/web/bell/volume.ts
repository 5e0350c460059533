const KEY = 'vatside.bell-volume';
/** Gains, each about 4 dB above the one before. */
const STEPS = [0.25, 0.4, 0.63, 1] as const;
const USUAL = 1;

const stepNow = (): number => {
  const stored = Number(localStorage.getItem(KEY) ?? USUAL);
  return Number.isInteger(stored) && stored >= 0 && stored < STEPS.length ? stored : USUAL;
};

/** How loud this device rings, 0 to 1. */
export const volumeOf = (): number => STEPS[stepNow()] ?? STEPS[USUAL];

/** One step louder, kept on this device; false where it is as loud as it goes. */
export function louder(): boolean {
  const now = stepNow();
  if (now >= STEPS.length - 1) return false;
  localStorage.setItem(KEY, String(now + 1));
  return true;
}
