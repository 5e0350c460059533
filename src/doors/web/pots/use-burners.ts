import { useState } from 'react';

const KEY = 'vatside.burners';
export const MOST_BURNERS = 8;

function stored(): number | null {
  const count = Number(localStorage.getItem(KEY));
  return Number.isInteger(count) && count >= 1 && count <= MOST_BURNERS ? count : null;
}

/** How many burners this kitchen has: asked once, kept on this device; null while nobody has said. */
export function useBurners(): { readonly burners: number | null; readonly setBurners: (count: number | null) => void } {
  const [burners, set] = useState(stored);
  const setBurners = (count: number | null): void => {
    set(count);
    if (count === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, String(count));
  };
  return { burners, setBurners };
}
