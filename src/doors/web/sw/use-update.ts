import { useEffect, useState } from 'react';
import { keepOffline, type Update } from './register.ts';

/** A newer build, once one lies ready; the page offers it and never takes it by itself. */
export function useUpdate(): Update | null {
  const [update, setUpdate] = useState<Update | null>(null);
  useEffect(() => keepOffline(setUpdate), []);
  return update;
}
