import { useState } from 'react';
import { partsKeeper } from './kept-parts.ts';

/** What is worked out anew at each drawing, with all that says the same as at the last one being the very same objects. */
export function useKeptParts<T>(now: T): T {
  const [keep] = useState(partsKeeper<T>);
  return keep(now);
}
