import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';

/** What is running, what is due, is anything off? */
export function TodayScreen(): ReactNode {
  const { say } = useReader();
  return <h1>{say('today:title')}</h1>;
}
