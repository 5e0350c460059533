import { useState } from 'react';

const KEY = 'vatside.burners';
export const MOST_BURNERS = 8;

function stored(): number | null {
  const count = Number(localStorage.getItem(KEY));
  return Number.isInteger(count) && count >= 1 && count <= MOST_BURNERS ? count : null;
}

/** Keeps on this device how many burners there are; nothing where none are, or so many that nobody would ask. */
export function keepBurners(count: number | null): void {
  if (count === null || count < 1 || count > MOST_BURNERS) localStorage.removeItem(KEY);
  else localStorage.setItem(KEY, String(count));
}

/** How many burners this kitchen has: asked once, kept on this device; null while nobody has said. */
export function useBurners(): { readonly burners: number | null; readonly setBurners: (count: number | null) => void } {
  const [burners, set] = useState(stored);
  const setBurners = (count: number | null): void => {
    set(count);
    keepBurners(count);
  };
  return { burners, setBurners };
}
